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

var updateGolden = flag.Bool("update", false, "write the golden sentences anew")

// trainings whose every sentence is kept in testdata/words.golden, to be read in
// review.
func goldenHistories(t *testing.T) []struct {
	name string
	sets []drill.Set
} {
	one := func(s drill.Setup, wing, cue string) []drill.Set { return numberSets(scripted(t, s, wing, cue)) }
	return []struct {
		name string
		sets []drill.Set
	}{
		{"too early", one(standardSetup(), "msfm", "w")},
		{"not enough to tell", one(standardSetup(), ordinaryWing, ordinaryCue)},
		{"balls off the table", one(setupWithSpeed(20), ordinaryWing, "wwowwwwoww")},
		{"side scratches", one(standardSetup(), ordinaryWing, "SwwSSwwSww")},
		{"thrown across", one(standardSetup(), ordinaryWing, "xxxxxxxxww")},
		{"head scratches", one(setupWithTip(-0.3), ordinaryWing, "HwwHHwwHww")},
		{"foot scratches, off full", one(setupWithContact(0.3), ordinaryWing, "FwwFFwwFww")},
		{"forward", one(setupWithTip(0), ordinaryWing, "fffwfffwfw")},
		{"path not seen", one(setupWithTip(-0.3), ordinaryWing, "???w???w?w")},
		{"back", one(setupWithTip(-0.3), ordinaryWing, "bbrwrbbwbw")},
		{"back without draw", one(setupWithTip(0.2), ordinaryWing, "bbrwrbbbbw")},
		{"too central", one(setupAtDistance(12), "sssssssmmm", "w")},
		{"too far out", one(setupAtDistance(20), "fffkffffmm", "w")},
		{"contact off full", one(setupWithContact(0.3), "sssssssmmm", "w")},
		{"no room left", one(setupAtDistance(22.5), "sssssssmmm", "w")},
		{"went too far", numberSets(scripted(t, setupAtDistance(10), farWing, "w"), scripted(t, setupAtDistance(14), overWing, "w"))},
		{"misses not recorded", one(standardSetup(), "m-------------------", "w")},
		{"place search", numberSets(scripted(t, setupAtDistance(20), "m-------------------", "w"), scripted(t, setupAtDistance(18), "mm------------------", "w"))},
		{"centre ball on the spot", one(setupCentreOnSpot(), "mssssssssssssfffffff", "w")},
		{"unsteady", one(setupWithSpeed(20), "sfmskfsfmf", "xbfwSfxbfb")},
		{"too soft, rails not counted", numberSets(withDryBreaks(scripted(t, setupWithSpeed(15), "msfkusfkuj", "w")))},
		{"it helped", numberSets(scripted(t, setupAtDistance(14), "sssssssssm", "w"), scripted(t, setupAtDistance(18), "mmfmsmmmsm", "w"))},
		{"it hurt", numberSets(scripted(t, setupWithTip(-0.1), "mmsfmmsmfm", "wwwwfwwwww"), scripted(t, setupWithTip(-0.3), "msffmsmkfm", "bbxbxbwbbx"), scripted(t, setupWithTip(-0.3), "msffmsmkfm", "bbxbxbwbbx"))},
		{"good", one(standardSetup(), strings.Repeat("mmmsm", 4), "w")},
		{"near the target for long", one(standardSetup(), strings.Repeat("mfsmmsfmms", 5), strings.Repeat("wwfwxwbwbf", 5))},
		{"no cause shows", one(standardSetup(), strings.Repeat("mfs", 12), strings.Repeat("wwfwxwbwbw", 4)[:36])},
		{"from the right", mirrorHistory(one(setupAtDistance(12), "sssssssmmm", "w"))},
	}
}

func TestWords_AreTheOnesReviewed(t *testing.T) {
	var b strings.Builder
	for _, l := range goldenHistories(t) {
		fmt.Fprintf(&b, "## %s\n%s\n", l.name, adviceSentences(Judge(l.sets, Brief{})))
	}
	path := filepath.Join("testdata", "words.golden")
	if *updateGolden {
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

// adviceSentences lists every sentence of an analysis.
func adviceSentences(a Advice) string {
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
	for _, check := range a.Checks {
		line("ask", check)
	}
	if a.NeedsCoach {
		line("coach", "is told")
	}
	return b.String()
}

// No sentence may promise, blame, cheer or speak the language of statistics.
func TestWords_KeepTheVoice(t *testing.T) {
	never := []string{"!", "always", "certainly", "guarantee", "perfect", "great", "unfortunately", "posterior",
		"probability", "significant", "interval", "confidence", "bad ", "fail", "NaN", "%!"}
	for _, l := range goldenHistories(t) {
		text := adviceSentences(Judge(l.sets, Brief{}))
		for _, word := range never {
			if strings.Contains(strings.ToLower(text), strings.ToLower(word)) {
				t.Errorf("%s: says %q:\n%s", l.name, word, text)
			}
		}
	}
}
