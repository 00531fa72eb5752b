package advice

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"breakwright/internal/drill"
	"breakwright/internal/response"
	"breakwright/internal/say"
)

// By hand from the definition (Lin 1991, IEEE Transactions on Information Theory 37):
// the entropy of the mean less the mean of the entropies, in bits.
func TestJensenShannon_WorkedByHand(t *testing.T) {
	for _, c := range []struct {
		p, q []float64
		want float64
	}{
		{[]float64{1, 0}, []float64{0, 1}, 1},
		{[]float64{0.5, 0.5}, []float64{0.5, 0.5}, 0},
		{[]float64{1, 0}, []float64{0.5, 0.5}, 0.3112781},
	} {
		if got := jensenShannon(c.p, c.q); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%v and %v: %.7f, want %.7f", c.p, c.q, got, c.want)
		}
	}
}

// A miss of which nobody saw what it met leaves "made" and "dropped elsewhere" apart.
func TestTellingFact_AddsWhatIsNotKnownWithoutIt(t *testing.T) {
	_, wing := response.OutcomesOf(response.Wing)
	one, other := make([]float64, response.Width), make([]float64, response.Width)
	one[response.WingMade], other[response.WingMade] = 0.4, 0.4
	one[response.WingSideRail], other[response.WingFootRail] = 0.6, 0.6
	misses := tellingFacts[0]
	if got := misses.bitsAdded(one, other); math.Abs(got-0.6) > 1e-9 || wing != 6 {
		t.Errorf("misses of opposite sides in six breaks of ten add %.3f bits", got)
	}
	other[response.WingMade], other[response.WingFootRail], other[response.WingSideRail] = 0.1, 0, 0.9
	if got := misses.bitsAdded(one, other); math.Abs(got) > 1e-9 {
		t.Errorf("makes alone differ, and the misses add %.3f bits", got)
	}
}

// What is noted already is not asked for, and never the same thing twice.
func TestJudge_AsksForWhatIsSeldomNoted(t *testing.T) {
	asked := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		history := drawHistory(t)
		if rapid.Bool().Draw(t, "counts those past the string") {
			for i := range history {
				for j := range history[i].Breaks {
					history[i].Breaks[j].PastString = drill.ObservedCount(2)
				}
			}
		}
		a := Judge(history, Brief{})
		for _, check := range a.SaidChecks {
			if check.Kind != say.TellApart {
				continue
			}
			asked[check.About]++
			for _, f := range tellingFacts {
				if f.name == check.About && !wasSeldomNoted(f, history, a) {
					t.Fatalf("asks for %s, which is noted: %s", f.name, a.Checks)
				}
			}
			if strings.Count(strings.Join(a.Checks, "\n"), "wing ball meets first")+strings.Count(strings.Join(a.Checks, "\n"), "what it met first") > 1 {
				t.Fatalf("asks twice: %q", a.Checks)
			}
		}
	})
	if len(asked) < 2 {
		t.Errorf("only %v was asked for", asked)
	}
}

// wasSeldomNoted counts a fact in the sets that were judged.
func wasSeldomNoted(f tellingFact, history []drill.Set, a Advice) bool {
	noted, could := 0, 0
	for _, set := range history {
		for _, name := range a.Stint.Used {
			for i := range set.Breaks {
				if has, may := f.isNoted(&set.Breaks[i], set.Setup); set.Name == name && may {
					could++
					if has {
						noted++
					}
				}
			}
		}
	}
	return 2*noted < could
}
