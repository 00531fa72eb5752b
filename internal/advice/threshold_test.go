package advice

import (
	"math"
	"slices"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Two findings that say the same are surer together, unless one is much in doubt by
// itself: below four in five the lesser counts alone.
func TestCombineCertainties_FromFourInFiveOn(t *testing.T) {
	for _, c := range []struct{ one, other, want float64 }{
		{0.79, 0.99, 0.79}, {0.99, 0.79, 0.79}, {0.8, 0.95, 0.9}, {0.9, 0.9, 0.9}, {0.91, 0.99, 0.97},
	} {
		if got := combineCertainties(c.one, c.other); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v and %v are %v, want %v", c.one, c.other, got, c.want)
		}
	}
}

// Misses are known once somebody saw half of them.
func TestMissesKnown_FromHalfOn(t *testing.T) {
	l := newAnalysis(numberSets(scripted(t, standardSetup(), ordinaryWing, "w")), Brief{})
	for seen, want := range map[int]bool{4: false, 5: true, 6: true} {
		tally := l.currentTally()
		tally.watched, tally.wingMade, tally.misses = 12, 2, missCounts{side: seen}
		if got := l.areMissesKnown(); got != want {
			t.Errorf("%d of 10 misses seen: known is %v", seen, got)
		}
	}
}

// The oftener a ball leaves the table the more speed is taken off: two notches from 15
// in a hundred on, three from 30.
func TestDanger_NotchesByHowOften(t *testing.T) {
	l := newAnalysis(numberSets(scripted(t, standardSetup(), ordinaryWing, "w")), Brief{})
	n := dangerRule.Numbers
	for flown, notches := range map[int]table.Mph{14: 1, 15: 2, 29: 2, 30: 3, 60: 3} {
		got := dangerRule.proposeChanges(l, n, observation{count: flown, of: 100})[0]
		if want := l.currentSetup().Speed - notches; got.variable != VarySpeed || got.to.Speed != want {
			t.Errorf("%d of 100: %v at %v, want %v", flown, got.variable, got.to.Speed, want)
		}
	}
}

// The first ball that flies is spoken of from 21 mph or a tip of 0.2 on; below, the
// second.
func TestDanger_FirstBallOfAForcefulBreak(t *testing.T) {
	for _, c := range []struct {
		setup drill.Setup
		want  bool
	}{
		{setupWithSpeed(20.9), false}, {setupWithSpeed(21), true}, {setupWithTip(0.19), false}, {setupWithTip(0.2), true},
	} {
		r := setupRecord{setup: c.setup, tally: breakTally{breaks: 10, off: 1}}
		if got := r.observeFlyingBalls(dangerRule.Numbers).certainty == 1; got != c.want {
			t.Errorf("one ball at %v with tip %v is spoken of: %v", c.setup.Speed, c.setup.Tip, got)
		}
	}
}

// Single changes are weighed near the present setup finely and further off coarsely.
func TestSingleChanges_NearAndFar(t *testing.T) {
	setup := setupAtDistance(11)
	setup.Speed = 21
	l := newAnalysis(numberSets(scripted(t, setup, ordinaryWing, "w")), Brief{})
	var speeds, places []float64
	for _, c := range l.listSingleChanges() {
		by := math.Round(partDifference(c.variable, setup, c.to)*10) / 10
		switch c.variable {
		case VarySpeed:
			speeds = append(speeds, by)
		case VaryPlace:
			places = append(places, by)
		}
	}
	slices.Sort(speeds)
	slices.Sort(places)
	// Four more than 21 would be faster than any break that is taught.
	if want := []float64{-6, -4, -3, -2, -1, 1, 2, 3}; !slices.Equal(speeds, want) {
		t.Errorf("speeds %v, want %v", speeds, want)
	}
	if want := []float64{-10, -8, -6, -4, -3, -2, -1, 1, 2, 3, 4, 6, 8, 10}; !slices.Equal(places, want) {
		t.Errorf("places %v, want %v", places, want)
	}
}

// A cue ball that comes back too far under two miles an hour too many is answered by
// less of them, and by a higher tip below that.
func TestLessDraw_SpeedFirstFromTwoTooMany(t *testing.T) {
	for over, want := range map[table.Mph]Variable{1.5: VaryTip, 2: VarySpeed} {
		s := setupWithTip(ordinaryTip)
		s.Speed = ordinarySpeed + over
		l := newAnalysis(numberSets(scripted(t, s, ordinaryWing, "w")), Brief{})
		if got := l.proposeLessDraw(0.1)[0].variable; got != want {
			t.Errorf("%v mph too many: %v comes first, want %v", over, got, want)
		}
	}
}

// As much too fast as too low, the tip is raised first.
func TestLessDraw_TipFirstWhenBothAreOff(t *testing.T) {
	for over, want := range map[table.Mph]Variable{4: VaryTip, 4.5: VarySpeed} {
		s := setupWithTip(ordinaryTip - 0.4)
		s.Speed = ordinarySpeed + over
		if got := analysisOf(scripted(t, s, ordinaryWing, "w")).proposeLessDraw(0.1)[0].variable; got != want {
			t.Errorf("%v mph too many and four tenths too low: %v comes first, want %v", over, got, want)
		}
	}
}

// A tip that is not being moved needs a stronger case, whatever else was changed last.
func TestTipLine_IsLowerOnlyForATipThatMoves(t *testing.T) {
	l, n := movedOut(t, 14, 16), Numbers{Line: 0.4}
	for _, towards := range []direction{inward, outward} {
		if got := l.tipLine(n, towards); !(got > n.Line) {
			t.Errorf("after a change of place the line is %v, no higher than %v", got, n.Line)
		}
	}
}

// Where the cue ball went that nobody saw is asked for until two sets are played; then,
// under much draw, it came back.
func TestForthAndBack_AfterTwoSets(t *testing.T) {
	l := newAnalysis(numberSets(scripted(t, setupWithTip(muchDraw), ordinaryWing, "w")), Brief{})
	for breaks, want := range map[int]int{2*fewestBreaks - 1: 0, 2 * fewestBreaks: 3} {
		tally := l.currentTally()
		tally.breaks, tally.cue = breaks, cueTally{lostFoot: 3}
		if forth, back := l.countForthAndBack(); forth != 0 || back != want {
			t.Errorf("after %d breaks: %d forth and %d back, want %d back", breaks, forth, back, want)
		}
	}
}
