package component

import (
	"strings"
	"testing"

	"breakwright/internal/drill"
)

// A set that was only begun has no scratches in none of nothing.
func TestRateBars_OfNoBreak(t *testing.T) {
	for _, c := range []struct {
		counts BreakCounts
		want   string
	}{{BreakCounts{}, ""}, {BreakCounts{Breaks: 1}, "Scratches 0 of 1, dry breaks not watched."}} {
		var page strings.Builder
		if err := RateBars("set", c.counts, drill.Targets{}).Render(t.Context(), &page); err != nil {
			t.Fatal(err)
		}
		if says := page.String(); !strings.Contains(says, c.want) || (says == "") != (c.want == "") {
			t.Errorf("of %d breaks: %q", c.counts.Breaks, says)
		}
	}
}
