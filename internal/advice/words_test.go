package advice

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"breakwright/internal/drill"
)

var update = flag.Bool("update", false, "write the golden sentences anew")

// lessons whose every sentence is kept in testdata/words.golden, to be read in
// review.
func goldenLessons(t *testing.T) []struct {
	name string
	sets []drill.Set
} {
	one := func(s drill.Setup, wing, cue string) []drill.Set { return lessonOf(scripted(t, s, wing, cue)) }
	return []struct {
		name string
		sets []drill.Set
	}{
		{"too early", one(standard(), "msfm", "w")},
		{"not enough to tell", one(standard(), ordinaryWing, ordinaryCue)},
		{"balls off the table", one(sped(20), ordinaryWing, "wwowwwwoww")},
		{"side scratches", one(standard(), ordinaryWing, "SwwSSwwSww")},
		{"thrown across", one(standard(), ordinaryWing, "xxxxxxxxww")},
		{"head scratches", one(tipped(-0.3), ordinaryWing, "HwwHHwwHww")},
		{"foot scratches, off full", one(contacted(0.3), ordinaryWing, "FwwFFwwFww")},
		{"forward", one(tipped(0), ordinaryWing, "fffwfffwfw")},
		{"path not seen", one(tipped(-0.3), ordinaryWing, "???w???w?w")},
		{"back", one(tipped(-0.3), ordinaryWing, "bbrwrbbwbw")},
		{"back without draw", one(tipped(0.2), ordinaryWing, "bbrwrbbbbw")},
		{"too central", one(at(12), "sssssssmmm", "w")},
		{"too far out", one(at(20), "fffkffffmm", "w")},
		{"contact off full", one(contacted(0.3), "sssssssmmm", "w")},
		{"no room left", one(at(22.5), "sssssssmmm", "w")},
		{"went too far", lessonOf(scripted(t, at(10), farWing, "w"), scripted(t, at(14), overWing, "w"))},
		{"misses not recorded", one(standard(), "m-------------------", "w")},
		{"place search", lessonOf(scripted(t, at(20), "m-------------------", "w"), scripted(t, at(18), "mm------------------", "w"))},
		{"centre ball on the spot", one(centred(), "mssssssssssssfffffff", "w")},
		{"unsteady", one(sped(20), "sfmskfsfmf", "xbfwSfxbfb")},
		{"too soft, rails not counted", lessonOf(dried(scripted(t, sped(15), "msfkusfkuj", "w")))},
		{"it helped", lessonOf(scripted(t, at(14), "sssssssssm", "w"), scripted(t, at(18), "mmfmsmmmsm", "w"))},
		{"it hurt", lessonOf(scripted(t, tipped(-0.1), "mmsfmmsmfm", "wwwwfwwwww"), scripted(t, tipped(-0.3), "msffmsmkfm", "bbxbxbwbbx"), scripted(t, tipped(-0.3), "msffmsmkfm", "bbxbxbwbbx"))},
		{"good", one(standard(), strings.Repeat("mmmsm", 4), "w")},
		{"near the target for long", one(standard(), strings.Repeat("mfsmmsfmms", 5), strings.Repeat("wwfwxwbwbf", 5))},
		{"no cause shows", one(standard(), strings.Repeat("mfs", 12), strings.Repeat("wwfwxwbwbw", 4)[:36])},
		{"from the right", mirrored(one(at(12), "sssssssmmm", "w"))},
	}
}

func TestWords_AreTheOnesReviewed(t *testing.T) {
	var b strings.Builder
	for _, l := range goldenLessons(t) {
		fmt.Fprintf(&b, "## %s\n%s\n", l.name, spoken(Judge(l.sets, Brief{})))
	}
	path := filepath.Join("testdata", "words.golden")
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v (run the test with -update)", err)
	}
	got := b.String()
	if got == string(want) {
		return
	}
	gotLines, wantLines := strings.Split(got, "\n"), strings.Split(string(want), "\n")
	for i := range min(len(gotLines), len(wantLines)) {
		if gotLines[i] != wantLines[i] {
			t.Fatalf("line %d of %s:\n got %s\nwant %s\n(run with -update and read the difference)", i+1, path, gotLines[i], wantLines[i])
		}
	}
	t.Fatalf("%d lines, want %d", len(gotLines), len(wantLines))
}

// spoken lists every sentence of an advice.
func spoken(a Advice) string {
	var b strings.Builder
	line := func(label, says string) {
		if says != "" {
			fmt.Fprintf(&b, "%-10s %s\n", label, says)
		}
	}
	line("verdict", string(a.Verdict))
	line("says", a.Says)
	if p := a.Prescription; p != nil {
		line("change", fmt.Sprintf("%s from %s to %s %s", p.Variable, p.From, p.To, p.Unit))
		line("reason", p.Reason)
		line("expect", p.Expect)
		line("caution", p.Caution)
	}
	for _, f := range a.Findings {
		line("finding", f.Says)
	}
	if a.FollowUp != nil {
		line("follow-up", string(a.FollowUp.Outcome)+": "+a.FollowUp.Says)
	}
	if a.Places != nil {
		line("places", a.Places.Says)
	}
	if a.Card != nil {
		line("card", a.Card.Says)
	}
	for _, ask := range a.Ask {
		line("ask", ask)
	}
	if a.TellCoach {
		line("coach", "is told")
	}
	return b.String()
}

// No sentence may promise, blame, cheer or speak the language of statistics.
func TestWords_KeepTheVoice(t *testing.T) {
	never := []string{"!", "always", "certainly", "guarantee", "perfect", "great", "unfortunately", "posterior",
		"probability", "significant", "interval", "confidence", "bad ", "fail", "NaN", "%!"}
	for _, l := range goldenLessons(t) {
		text := spoken(Judge(l.sets, Brief{}))
		for _, word := range never {
			if strings.Contains(strings.ToLower(text), strings.ToLower(word)) {
				t.Errorf("%s: says %q:\n%s", l.name, word, text)
			}
		}
	}
}
