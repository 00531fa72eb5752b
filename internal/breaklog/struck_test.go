package breaklog_test

import (
	"encoding/csv"
	"slices"
	"strings"
	"testing"
	"time"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
)

func TestWriteStruck_ABreakAndItsEnd(t *testing.T) {
	set := readSets(t, openFixture(t, "example.csv"))[0]
	first, second := set.Breaks[0], set.Breaks[1]
	second.Number = first.Number // changed, and then taken out
	at := time.Date(2026, 3, 2, 19, 0, 0, 0, time.UTC)
	var text strings.Builder
	err := breaklog.WriteStruck(&text, []drill.StruckSet{{Set: set, Struck: []drill.StruckBreak{
		{Break: first, Changed: true, Reason: "=the other end", At: at}, {Break: second, ByCoach: true, Reason: "The rack, it fell", At: at}, {Break: second, PutBack: true, At: at},
	}}})
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(text.String())).ReadAll()
	if err != nil || len(rows) != 4 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	width := len(breaklog.ColumnNames())
	if !slices.Equal(rows[0][:width], breaklog.ColumnNames()) {
		t.Errorf("header: %q", rows[0])
	}
	for i, want := range [][]string{
		{"changed", "student", "'=the other end", "2026-03-02T19:00:00Z"}, {"taken-out", "coach", "The rack, it fell", "2026-03-02T19:00:00Z"},
		{"put-back", "student", "", "2026-03-02T19:00:00Z"},
	} {
		if got := rows[i+1][width:]; !slices.Equal(got, want) {
			t.Errorf("row %d ends %q, not %q", i+1, got, want)
		}
	}
	logged := strings.Split(writtenText(t, []drill.Set{set}), "\r\n")[1]
	if !strings.Contains(text.String(), logged+",changed,") {
		t.Errorf("the break is not as the log has it: %s\n%s", text.String(), logged)
	}
}
