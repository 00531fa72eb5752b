package advice

import (
	"encoding/json"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"breakwright/internal/drill"
	"breakwright/internal/say"
)

// Of breaks in which only the cue ball was watched the wing ball is not known: they
// are in no count of it, whatever was tapped, and in every count of the cue ball.
func TestJudge_BreaksNotWatchedCountForTheCueBallAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		history := drawHistory(t)
		if len(history) == 0 {
			return
		}
		all := rapid.Bool().Draw(t, "all of them")
		watched, cueOnly := 0, 0
		for i := range history {
			for j := range history[i].Breaks {
				b := &history[i].Breaks[j]
				if all || rapid.Bool().Draw(t, "not watched") {
					b.WingMiss = drill.NotWatched
				}
			}
		}
		a := Judge(history, Brief{})
		for _, set := range history {
			for _, name := range a.Stint.Used {
				for _, b := range set.Breaks {
					if set.Name == name && b.IsWatched() {
						watched++
					} else if set.Name == name {
						cueOnly++
					}
				}
			}
		}
		for _, f := range a.Findings {
			switch {
			case f.Rule == FactWing && f.Of != watched, f.Rule == RuleDry && f.Of != watched:
				t.Fatalf("%s is %d of %d, and %d were watched", f.Rule, f.Count, f.Of, watched)
			case f.Rule == FactWindow && f.Of != watched+cueOnly:
				t.Fatalf("%s is of %d, and there are %d breaks", f.Rule, f.Of, watched+cueOnly)
			}
		}
		text, err := json.Marshal(a)
		if err != nil {
			t.Fatalf("the advice cannot be written down: %v", err)
		}
		if nothing := "of " + say.Number(0); strings.Contains(string(text), nothing+" ") || strings.Contains(string(text), nothing+".") {
			t.Fatalf("a rate over nothing is said: %s", text)
		}
	})
}
