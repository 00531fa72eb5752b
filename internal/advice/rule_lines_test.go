package advice

import (
	"math"
	"slices"
	"testing"

	"breakwright/internal/belief"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// analysisWith is an analysis of one setup under which this was seen.
func analysisWith(t *testing.T, s drill.Setup, seen breakTally) *analysis {
	t.Helper()
	l := analysisOf(scripted(t, s, ordinaryWing, "w"))
	*l.currentTally() = seen
	return l
}

// Of twenty breaks: on how many the pattern opens a case, and on how many it goes on with
// one. Where fewer count, as for makes with the misses unseen, it is from how few on.
func TestRules_FromHowManyOfTwenty(t *testing.T) {
	fewest := func(line, certainty float64) int {
		for count := range 21 {
			if observeShare(count, 20, line).certainty >= certainty {
				return count
			}
		}
		return 21
	}
	for _, c := range []struct {
		rule       Rule
		open, goOn int
	}{
		{dangerRule.Rule, 2, 2},
		{weakBreakRule.Rule, 8, 7},
		{sideScratchRule.Rule, 6, 5},
		{headScratchRule.Rule, 6, 5},
		{footScratchRule.Rule, 6, 5},
		{thrownWideRule.Rule, 10, 9},
		{forwardRule.Rule, 10, 8},
		{backTooFarRule.Rule, 10, 8},
		{unsteadyRule.Rule, 12, 11},
		{noShotRule.Rule, 14, 14},
		{headBallRule.Rule, 16, 15},
		{dryBreakRule.Rule, 11, 0},
	} {
		n := c.rule.Numbers
		open, goOn := fewest(n.Line, n.Certainty), 0 // for a rule that changes nothing
		if n.Onward > 0 {
			goOn = fewest(n.Line, min(n.Onward, n.Certainty))
		}
		if open != c.open || goOn != c.goOn {
			t.Errorf("%s: from %d of twenty on, going on from %d; want %d and %d", c.rule.Name, open, goOn, c.open, c.goOn)
		}
	}
	l := analysisOf(scripted(t, standardSetup(), ordinaryWing, "w"))
	n := wingUnseenRule.Numbers
	for made, want := range map[int]string{2: "opens", 3: "goes on", 4: "goes on", 5: "waits"} {
		got := "waits"
		switch certainty := certaintyBelow(made, 20, n.Line*l.targets.Wing); {
		case certainty >= n.Certainty:
			got = "opens"
		case certainty >= n.Onward:
			got = "goes on"
		}
		if got != want {
			t.Errorf("%d of twenty made, the misses unseen: %s, want %s", made, got, want)
		}
	}
}

// A ball off the table is spoken of from the first break on, of a forceful one.
func TestDanger_InTheVeryFirstBreak(t *testing.T) {
	if a := judgePatterns(numberSets(scripted(t, setupWithSpeed(22), "m", "o")), Brief{}); a.Verdict != Change || a.Next.Speed >= 22 {
		t.Errorf("%s, next at %v mph", a.Verdict, a.Next.Speed)
	}
}

// From far above the ordinary speed at most five come off at once. A tip above centre
// comes down too: first, where it is high.
func TestDanger_WhatComesDownFirst(t *testing.T) {
	for _, c := range []struct {
		setup drill.Setup
		want  []Variable
		speed table.Mph
	}{
		{setupWithSpeed(24), []Variable{VarySpeed}, 19},
		{setupWithSpeed(22), []Variable{VarySpeed}, 18},
		{setupWithTip(0), []Variable{VarySpeed}, 17},
		{setupWithTip(0.1), []Variable{VarySpeed, VaryTip}, 17},
		{setupWithTip(0.2), []Variable{VaryTip, VarySpeed}, 17},
	} {
		l := analysisOf(scripted(t, c.setup, ordinaryWing, "w"))
		changes := dangerRule.proposeChanges(l, dangerRule.Numbers, observation{count: 5, of: 100})
		if len(changes) != len(c.want) {
			t.Fatalf("from %v with tip %v: %+v", c.setup.Speed, c.setup.Tip, changes)
		}
		for i, change := range changes {
			if change.variable != c.want[i] || change.variable == VarySpeed && change.to.Speed != c.speed || change.variable == VaryTip && change.to.Tip != 0 {
				t.Errorf("from %v with tip %v: %s to %+v", c.setup.Speed, c.setup.Tip, change.variable, change.to)
			}
		}
	}
}

// A setup is brought back when it lies beyond what is taught by more than a hand and a
// tape measure can tell.
func TestLimits_BeyondByMoreThanAHandCanTell(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*drill.Setup)
		want   Variable
	}{
		{"24.5 mph", func(s *drill.Setup) { s.Speed = 24.5 }, VaryNone},
		{"24.6 mph", func(s *drill.Setup) { s.Speed = 24.6 }, VarySpeed},
		{"a tip of 0.56", func(s *drill.Setup) { s.Tip = -0.56 }, VaryTip},
		{"a tip of 0.54", func(s *drill.Setup) { s.Tip = -0.54 }, VaryNone},
		{"half an inch too near the rail", func(s *drill.Setup) { s.Cue.X = -23.25 }, VaryNone},
		{"a little nearer", func(s *drill.Setup) { s.Cue.X = -23.3 }, VaryPlace},
		{"a hit of 0.54 in", func(s *drill.Setup) { s.Contact = 0.54 }, VaryNone},
		{"a hit of 0.56 in", func(s *drill.Setup) { s.Contact = 0.56 }, VaryContact},
		{"spin of 0.34", func(s *drill.Setup) { s.Spin = 0.34 }, VaryNone},
		{"spin of 0.36", func(s *drill.Setup) { s.Spin = 0.36 }, VarySpin},
		{"too fast and too low", func(s *drill.Setup) { s.Speed, s.Tip = 26, -0.7 }, VarySpeed},
	} {
		s := standardSetup()
		c.change(&s)
		l := analysisOf(scripted(t, s, "mm", "w"))
		if got, beyond := l.beyondLimits(); got != c.want || beyond != (c.want != VaryNone) {
			t.Errorf("%s: %s is beyond (%v), want %s", c.name, got, beyond, c.want)
		}
		if got := limitsRule.observe(l, limitsRule.Numbers); got.certainty != 0 && got.certainty != 1 {
			t.Errorf("%s: certainty %v, where nothing is in doubt", c.name, got.certainty)
		}
	}
}

// Scratches in a side pocket: the hit moves away from it, twice as far from three in ten
// on, unless it is there already or the wing ball's misses forbid it.
func TestSideScratch_TheHitMovesAwayFromThePocket(t *testing.T) {
	for _, c := range []struct {
		name      string
		contact   table.Inches
		far, near int
		misses    missCounts
		to        table.Inches
	}{
		{"three of ten, far", 0, 3, 0, missCounts{}, -0.2},
		{"two of ten, far", 0, 2, 0, missCounts{}, -0.1},
		{"three of ten, near", 0, 0, 3, missCounts{}, 0.2},
		{"as many near as far", 0, 2, 2, missCounts{}, -0.2},
		{"nearly there already", -0.19, 2, 0, missCounts{}, -0.3},
		{"there already", -0.2, 2, 0, missCounts{}, -0.2},
		{"the foot rail first", 0, 2, 0, missCounts{foot: 5}, 0},
	} {
		l := analysisWith(t, setupWithContact(c.contact), breakTally{breaks: 10, watched: 10, misses: c.misses, cue: cueTally{scratchFar: c.far, scratchNear: c.near}})
		s := sideScratchRule.observe(l, sideScratchRule.Numbers)
		if got := sideScratchRule.proposeChanges(l, sideScratchRule.Numbers, s)[0].to.Contact; got != c.to {
			t.Errorf("%s: the contact goes to %v, want %v", c.name, got, c.to)
		}
	}
}

// A cue ball thrown across moves the hit, twice as far from six in ten on; misses on the
// foot rail say that the hit is there already.
func TestThrownWide_HowFarTheHitMoves(t *testing.T) {
	for wide, to := range map[int]table.Inches{5: -0.1, 6: -0.2} {
		l := analysisWith(t, standardSetup(), breakTally{breaks: 10, watched: 10, cue: cueTally{wideFar: wide}})
		s := thrownWideRule.observe(l, thrownWideRule.Numbers)
		if got := thrownWideRule.proposeChanges(l, thrownWideRule.Numbers, s)[0].to.Contact; got != to {
			t.Errorf("%d of ten: the contact goes to %v, want %v", wide, got, to)
		}
	}
	l := analysisWith(t, standardSetup(), breakTally{breaks: 10, watched: 10, misses: missCounts{foot: 5}, cue: cueTally{wideFar: 9}})
	if s := thrownWideRule.observe(l, thrownWideRule.Numbers); !(s.certainty < 0.15) {
		t.Errorf("with five misses on the foot rail it is %v sure", s.certainty)
	}
}

// Of makes alone the first look is two inches: out from a place more than four inches too
// central, else in. A stroke so soft that nothing falls says nothing of the place.
func TestWingUnseen_TheFirstLook(t *testing.T) {
	for out, to := range map[table.Inches]table.Inches{13: 15, 13.5: 15.5, 14: 12, 18: 16} {
		l := analysisOf(scripted(t, setupAtDistance(out), ordinaryWing, "w"))
		if got := distanceOut(wingUnseenRule.proposeChanges(l, wingUnseenRule.Numbers, observation{})[0].to); got != to {
			t.Errorf("from %v in it looks at %v, want %v", out, got, to)
		}
	}
	for _, c := range []struct {
		name  string
		speed table.Mph
		dry   int
		doubt bool
	}{
		{"soft and dry", 15, 18, true}, {"soft, and half of them dry", 15, 9, false}, {"soft, and eleven dry", 15, 11, true}, {"dry at an ordinary speed", 18, 18, false},
	} {
		l := analysisWith(t, setupWithSpeed(c.speed), breakTally{breaks: 20, watched: 20, dry: c.dry, misses: missCounts{unseen: 20}})
		if s := wingUnseenRule.observe(l, wingUnseenRule.Numbers); (s.certainty == 0.5) != c.doubt || !c.doubt && s.certainty < 0.95 {
			t.Errorf("%s: it is %v sure of the place", c.name, s.certainty)
		}
	}
}

// The more speed, the sooner control is the first suspect: the line is at 45 of a hundred
// lost breaks at an ordinary speed, and at 28 from three miles an hour more on.
func TestUnsteady_LineBySpeed(t *testing.T) {
	for speed, line := range map[table.Mph]float64{16: 0.45, 18: 0.45, 18.9: 0.45, 19: 0.36, 20: 0.32, 21: 0.28, 24: 0.28} {
		l := analysisWith(t, setupWithSpeed(speed), breakTally{breaks: 10, watched: 10})
		if got := unsteadyRule.observe(l, unsteadyRule.Numbers).line; math.Abs(got-line) > 1e-9 {
			t.Errorf("at %v mph the line is %v, want %v", speed, got, line)
		}
	}
}

// scattered is what hands show that miss both ways with both balls.
var scattered = breakTally{
	breaks: 20, watched: 20, wingMade: 2, lost: 17, misses: missCounts{side: 9, foot: 9},
	cue: cueTally{inWindow: 3, forward: 5, back: 5, wide: 7, across: 20},
}

// Control is not the answer where the misses or the cue ball go astray one way, where
// nobody knows the speed, or, at an ordinary speed, what the wing ball met.
func TestUnsteady_OnlyWhereEverythingScatters(t *testing.T) {
	for _, c := range []struct {
		name   string
		speed  table.Mph
		change func(*breakTally)
		sure   bool
	}{
		{"fast", 20, func(*breakTally) {}, true},
		{"fast, misses unseen", 20, func(n *breakTally) { n.misses = missCounts{unseen: 18} }, true},
		{"a mile faster than usual, misses unseen", 19, func(n *breakTally) { n.misses = missCounts{unseen: 18} }, true},
		{"ordinary", 18, func(*breakTally) {}, true},
		{"ordinary, misses unseen", 18, func(n *breakTally) { n.misses = missCounts{unseen: 18} }, false},
		{"nobody knows how fast", 0, func(*breakTally) {}, false},
		{"too central", 20, func(n *breakTally) { n.misses = missCounts{side: 16, foot: 2} }, false},
		{"too far out", 20, func(n *breakTally) { n.misses = missCounts{side: 2, foot: 16} }, false},
		{"thrown across", 20, func(n *breakTally) { n.cue.farSide = 16 }, false},
		{"thrown to the near side", 20, func(n *breakTally) { n.cue.nearSide = 16 }, false},
		{"all forward", 20, func(n *breakTally) { n.cue = cueTally{forward: 15, back: 1, wide: 1, across: 20} }, false},
		{"all back", 20, func(n *breakTally) { n.cue = cueTally{forward: 1, back: 15, wide: 1, across: 20} }, false},
	} {
		seen := scattered
		c.change(&seen)
		s := unsteadyRule.observe(analysisWith(t, setupWithSpeed(c.speed), seen), unsteadyRule.Numbers)
		if c.sure && s.certainty < unsteadyRule.Numbers.Certainty || !c.sure && s.certainty != 0.5 {
			t.Errorf("%s: it is %v sure", c.name, s.certainty)
		}
	}
}

// Both balls surely under their targets say the same as lost breaks do, from a mile an
// hour over the ordinary on.
func TestUnsteady_BothTargetsMissed(t *testing.T) {
	for speed, sure := range map[table.Mph]bool{18: false, 19: true, 21: true} {
		seen := scattered
		seen.lost = 4
		if s := unsteadyRule.observe(analysisWith(t, setupWithSpeed(speed), seen), unsteadyRule.Numbers); (s.certainty > 0.9) != sure {
			t.Errorf("at %v mph it is %v sure", speed, s.certainty)
		}
	}
}

// Mostly one way is surely more than six in ten of them: from 9 of 10, or 4 of 4 on.
func TestMostlyOneWay_FromHowManyOn(t *testing.T) {
	for _, c := range []struct {
		count, of int
		want      bool
	}{{0, 0, false}, {3, 3, false}, {4, 4, true}, {8, 10, false}, {9, 10, true}, {15, 20, true}, {14, 20, false}} {
		if got := isMostlyOneWay(c.count, c.of); got != c.want {
			t.Errorf("%d of %d: %v", c.count, c.of, got)
		}
	}
}

// A weak break that was hit off full wants a fuller hit first; and no more speed while a
// ball flies, the stroke scatters, or it is fast already.
func TestWeak_MoreSpeedOnlyOfAQuietStroke(t *testing.T) {
	weak := func(n int) breakTally {
		return breakTally{breaks: 10, watched: 10, weak: n, weakKnown: 10, wingMade: 5}
	}
	for _, c := range []struct {
		name    string
		contact table.Inches
		speed   table.Mph
		seen    breakTally
		variety Variable
		to      float64
	}{
		{"some", 0, 17, weak(4), VarySpeed, 18},
		{"half of them, two below the ordinary", 0, 16, weak(5), VarySpeed, 18},
		{"fewer, two below the ordinary", 0, 16, weak(4), VarySpeed, 17},
		{"half of them, one below the ordinary", 0, 17, weak(5), VarySpeed, 18},
		{"off full by a tenth", 0.1, 17, weak(5), VaryContact, 0},
		{"off full by less", 0.09, 17, weak(5), VarySpeed, 18},
		{"off full by far, on the near side", -0.46, 17, weak(5), VaryContact, -0.3},
		{"half a mile over the ordinary", 0, 18.5, weak(5), VarySpeed, 19.5},
		{"a mile over the ordinary", 0, 19, weak(5), VaryNone, 0},
		{"a ball flew", 0, 17, breakTally{breaks: 10, watched: 10, weak: 5, weakKnown: 10, off: 1}, VaryNone, 0},
		{"all scatters", 0, 17, scattered, VaryNone, 0},
	} {
		s := setupWithContact(c.contact)
		s.Speed = c.speed
		l := analysisWith(t, s, c.seen)
		changes := weakBreakRule.proposeChanges(l, weakBreakRule.Numbers, observation{count: c.seen.weak, of: 10})
		if c.variety == VaryNone {
			if len(changes) != 0 {
				t.Errorf("%s: %+v", c.name, changes)
			}
			continue
		}
		got := map[Variable]float64{VarySpeed: float64(changes[0].to.Speed), VaryContact: float64(changes[0].to.Contact)}[c.variety]
		if changes[0].variable != c.variety || got != c.to {
			t.Errorf("%s: %s to %v, want %s to %v", c.name, changes[0].variable, got, c.variety, c.to)
		}
	}
}

// A soft stroke is two miles an hour under the ordinary. Its weak breaks count from half
// the share on; where nobody counted the rails of most dry ones, the dry ones count.
func TestWeak_OfASoftStroke(t *testing.T) {
	for _, c := range []struct {
		name         string
		speed        table.Mph
		dry, counted int
		line         float64
	}{
		{"ordinary", 18, 4, 10, 0.2}, {"a mile and a half under", 16.5, 4, 10, 0.2}, {"two under", 16, 4, 10, 0.1},
		{"two under, rails of half the dry ones not counted", 16, 4, 8, 0.1}, {"of more than half", 16, 4, 7, 0.5}, {"ordinary, not counted", 18, 4, 2, 0.2},
	} {
		l := analysisWith(t, setupWithSpeed(c.speed), breakTally{breaks: 10, watched: 10, dry: c.dry, weakKnown: c.counted})
		if got := weakBreakRule.observe(l, weakBreakRule.Numbers).line; got != c.line {
			t.Errorf("%s: the line is %v, want %v", c.name, got, c.line)
		}
	}
}

// The rack is planned from eight breaks on of which somebody wrote down where the balls
// stopped; the head ball and the wing ball stay where they are.
func TestRackSwap_FromEightBreaksOn(t *testing.T) {
	l := analysisOf(scripted(t, standardSetup(), ordinaryWing, "w"))
	s := l.currentSetup()
	low, _ := s.Order.SlotOf(s.Game, s.HeadBall()+1)
	other := s.Game.Slots()[len(s.Game.Slots())-1]
	for _, c := range []struct {
		known int
		swaps bool
	}{{7, false}, {8, true}} {
		l.currentTally().slots = map[rack.Slot]slotEnds{low: {headHalf: 0, known: 20}, other: {headHalf: c.known, known: c.known}}
		if _, ok := l.findRackSwap(); ok != c.swaps {
			t.Errorf("of %d breaks: a swap is %v", c.known, ok)
		}
	}
	for _, stays := range []rack.Slot{s.Wing, s.Game.Slots()[0]} {
		l.currentTally().slots = map[rack.Slot]slotEnds{low: {headHalf: 0, known: 20}, stays: {headHalf: 20, known: 20}}
		if c, ok := l.findRackSwap(); ok {
			t.Errorf("the ball in %s is moved: %s", stays, c.to.Order)
		}
	}
	// Where the next ball is the wing ball, nothing moves.
	wing := analysisOf(scripted(t, standardSetup(), ordinaryWing, "w"))
	wing.currentRecord().setup.Wing = low
	wing.currentTally().slots = map[rack.Slot]slotEnds{low: {headHalf: 0, known: 20}, other: {headHalf: 20, known: 20}}
	if c, ok := wing.findRackSwap(); ok {
		t.Errorf("the wing ball is moved: %s", c.to.Order)
	}
	// The surest of two.
	better := s.Game.Slots()[len(s.Game.Slots())-2]
	l.currentTally().slots = map[rack.Slot]slotEnds{low: {headHalf: 0, known: 20}, other: {headHalf: 10, known: 20}, better: {headHalf: 18, known: 20}}
	c, ok := l.findRackSwap()
	if slot, _ := c.to.Order.SlotOf(s.Game, s.HeadBall()+1); !ok || slot != better {
		t.Errorf("the next ball goes to %s, want %s", slot, better)
	}
}

// A fast break is unsteady when both goals are surely well under their targets, not when
// they are just missed.
func TestUnsteady_BothWellUnderTheirTargets(t *testing.T) {
	for made, wants := range map[int]bool{3: true, 8: false} {
		l := analysisWith(t, setupWithSpeed(19.5), breakTally{breaks: 20, watched: 20, wingMade: made, misses: missCounts{side: 4, foot: 4}, cue: cueTally{inWindow: made}})
		if got := unsteadyRule.observe(l, unsteadyRule.Numbers).certainty; (got >= 0.8) != wants {
			t.Errorf("%d of twenty made and in the window: %v sure", made, got)
		}
	}
}

// A weak break wants more speed, unless everything scatters likelier than not, whatever
// else may be behind it.
func TestWeak_NoMoreSpeedWhereEverythingScatters(t *testing.T) {
	for lost, faster := range map[int]bool{2: true, 18: false} {
		l := analysisWith(t, standardSetup(), breakTally{breaks: 20, watched: 20, lost: lost, misses: missCounts{side: 20}})
		if got := weakBreakRule.proposeChanges(l, weakBreakRule.Numbers, observation{count: 8, of: 20}); (len(got) > 0) != faster {
			t.Errorf("%d of twenty lost, all on one side: %+v", lost, got)
		}
	}
}

// Control costs a mile an hour at an ordinary speed.
func TestUnsteady_TakesAMileOff(t *testing.T) {
	for from, to := range map[table.Mph]table.Mph{18: 17, 20: 18} {
		l := analysisOf(scripted(t, setupWithSpeed(from), ordinaryWing, "w"))
		if got := unsteadyRule.proposeChanges(l, unsteadyRule.Numbers, observation{})[0].to.Speed; got != to {
			t.Errorf("from %v mph to %v, want %v", from, got, to)
		}
	}
}

// The head ball says nothing where another ball stands on the foot spot.
func TestHeadBall_OnlyWhereItIsOnTheSpot(t *testing.T) {
	seen := breakTally{breaks: 20, watched: 20, wingMade: 15, head: headTally{known: 20, long: 19}}
	for name, c := range map[string]struct {
		setup drill.Setup
		want  bool
	}{"on the spot": {standardSetup(), true}, "behind it": {setupCentreOnSpot(), false}} {
		s := headBallRule.observe(analysisWith(t, c.setup, seen), headBallRule.Numbers)
		if s.canSettle != c.want || c.want && s.certainty < 0.95 || !c.want && s.certainty != 0 {
			t.Errorf("%s: %+v", name, s)
		}
	}
}

// Where nobody watched the balls, of the wing ball nothing is shown; of the cue ball it is.
func TestFactFindings_OfBallsThatNobodyWatched(t *testing.T) {
	for watched, want := range map[int][]RuleName{0: {FactWindow}, 1: {FactWing, FactWindow}} {
		l := analysisWith(t, standardSetup(), breakTally{breaks: 10, watched: watched})
		d := decision{observations: map[RuleName]observation{}}
		l.addFactFindings(&d)
		var got []RuleName
		for _, f := range d.findings {
			got = append(got, f.Rule)
		}
		if !slices.Equal(got, want) {
			t.Errorf("%d watched: %v, want %v", watched, got, want)
		}
	}
}

// Before anything was weighed no cause has a share.
func TestShareOf_BeforeAnythingWasWeighed(t *testing.T) {
	if got := (&decision{}).shareOf(belief.LooseRack); got != 0 {
		t.Errorf("%v", got)
	}
}
