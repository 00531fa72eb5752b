package advice

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"breakwright/internal/belief"
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
		if got := jensenShannon(c.p, c.q); !(math.Abs(got-c.want) <= 1e-6) { // what is no number is wrong too
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
	rapid.Check(t, func(t *rapid.T) {
		checkAskedFor(t, drawHistory(t), rapid.Bool().Draw(t, "counts those past the string"))
	})
	asked := map[string]bool{}
	for n := uint64(0); n < 100 && len(asked) < 2; n++ {
		for _, about := range checkAskedFor(t, leaningHistory(rand.New(rand.NewPCG(n, 11))), n%2 == 0) {
			asked[about] = true
		}
	}
	if len(asked) < 2 {
		t.Errorf("only %v was asked for", asked)
	}
}

// checkAskedFor returns what is asked for after a history, in which the balls past the
// string may have been counted.
func checkAskedFor(t rapid.TB, history []drill.Set, pastString bool) (asked []string) {
	t.Helper()
	if pastString {
		for i := range history {
			for j := range history[i].Breaks {
				history[i].Breaks[j].PastString = drill.ObservedCount(2)
			}
		}
	}
	a := Judge(history, Brief{})
	for _, check := range a.CheckStatements {
		if check.Kind != say.TellApart {
			continue
		}
		asked = append(asked, check.About)
		for _, f := range tellingFacts {
			if f.name == check.About && !wasSeldomNoted(f, history, a) {
				t.Fatalf("asks for %s, which is noted: %s", f.name, a.Checks)
			}
		}
	}
	if text := strings.Join(a.Checks, "\n"); strings.Count(text, "wing ball meets first")+strings.Count(text, "what it met first") > 1 {
		t.Fatalf("asks twice: %q", a.Checks)
	}
	return asked
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

// A fact is noted of a break, or could have been; it is asked for while fewer than half of
// those that could have it do.
func TestTellingFacts_WhatIsNoted(t *testing.T) {
	s := standardSetup()
	drop := drill.Break{Pocketed: []drill.Pocketed{{Ball: s.WingBall(), Pocket: s.WingPocket()}}}
	scratch := drill.Break{Cue: drill.CueEnd{How: drill.Scratched}}
	for _, c := range []struct {
		fact         string
		b            drill.Break
		noted, could bool
	}{
		{"misses", drill.Break{WingMiss: drill.MissSideRail}, true, true},
		{"misses", drill.Break{WingMiss: drill.MissUnknown}, false, true},
		{"misses", drill.Break{}, false, true},
		{"misses", drop, false, false},
		{"cue path", *stopped(0, 40, drill.PathBack), true, true},
		{"cue path", *stopped(0, 40, drill.PathUnknown), false, true},
		{"cue path", *stopped(0, 40, ""), false, true},
		{"cue path", scratch, false, false},
		{"low balls", drill.Break{Rest: []drill.RestingBall{{Ball: 2}}}, true, true},
		{"low balls", drill.Break{}, false, true},
		{"past string", drill.Break{PastString: drill.ObservedCount(0)}, true, true},
		{"past string", drill.Break{}, false, true},
		{"rails", drill.Break{Rails: drill.ObservedCount(0)}, true, true},
		{"rails", drill.Break{}, false, true},
	} {
		for _, f := range tellingFacts {
			if f.name != c.fact {
				continue
			}
			noted, could := f.isNoted(&c.b, s)
			if could != c.could || could && noted != c.noted {
				t.Errorf("%s of %+v: noted %v, could be %v", c.fact, c.b, noted, could)
			}
		}
	}
}

func TestIsSeldomNoted_UnderHalf(t *testing.T) {
	rails := tellingFacts[4]
	for noted, want := range map[int]bool{0: true, 4: true, 5: false, 10: false} {
		set := scripted(t, standardSetup(), ordinaryWing, "w")
		for i := range set.Breaks {
			if set.Breaks[i].Rails = nil; i < noted {
				set.Breaks[i].Rails = drill.ObservedCount(6)
			}
		}
		if got := analysisOf(set).isSeldomNoted(rails); got != want {
			t.Errorf("%d of ten noted: seldom is %v", noted, got)
		}
	}
	one := scripted(t, standardSetup(), "m", "w")
	if one.Breaks[0].Rails = nil; !analysisOf(one).isSeldomNoted(rails) {
		t.Error("of one break without its rails they are not asked for")
	}
	if misses := tellingFacts[0]; analysisOf(scripted(t, standardSetup(), "mmm", "w")).isSeldomNoted(misses) {
		t.Error("of no miss it is asked what the misses met")
	}
}

// Nobody saw how it came to rest: each scratch is still known, and the part of the table,
// whatever way led there.
func TestCueUnnoted_TheEndsAndThePartsOfTheTableStayApart(t *testing.T) {
	from, to := response.OutcomesOf(response.Cue)
	for one := range to - from {
		for other := range one {
			zone, rests := response.RestZone(one)
			otherZone, otherRests := response.RestZone(other)
			if got := cueUnnoted(one) == cueUnnoted(other); got != (rests && otherRests && zone == otherZone) {
				t.Errorf("outcomes %d and %d are one: %v", one, other, got)
			}
		}
	}
}

// What tells the two likeliest causes apart is asked for where the second is a fifth as
// likely as everything; not of a rack that may be loose, which is looked at, nor of a setup
// that is good.
func TestAskWhatTells_OfTheTwoLikeliestCauses(t *testing.T) {
	set := scripted(t, standardSetup(), ordinaryWing, "w")
	for i := range set.Breaks {
		set.Breaks[i].Rails = nil
	}
	l := believed(set)
	for _, c := range []struct {
		name          string
		first, second belief.Cause
		share         float64
		good, want    bool
	}{
		{"a fifth", belief.Speed, belief.Nothing, 0.2, false, true},
		{"less", belief.Speed, belief.Nothing, 0.19, false, false},
		{"of a good setup", belief.Speed, belief.Nothing, 0.3, true, false},
		{"a loose rack first", belief.LooseRack, belief.Speed, 0.3, false, false},
		{"a loose rack second", belief.Speed, belief.LooseRack, 0.3, false, false},
	} {
		d := decision{causes: []belief.CauseShare{{Cause: c.first, Share: 0.5}, {Cause: c.second, Share: c.share}}, setupIsGood: c.good}
		if got, found := newAdviceWriter(l, d, false).chooseTellingFact(); found != c.want {
			t.Errorf("%s: %+v is asked: %v", c.name, got, found)
		}
	}
	if got, found := newAdviceWriter(l, decision{}, false).chooseTellingFact(); found {
		t.Errorf("nothing was weighed, and %+v is asked", got)
	}
}
