package advice

import (
	"math"
	"testing"

	"breakwright/internal/table"
)

// Up to four inches in the first step, in proportion to the surplus of misses on one side
// among the breaks whose end was seen, and less with every change of place or hit since:
// gain times surplus over breaks over the root of the step's number (Robbins and Monro
// 1951), in whole inches.
func TestBalanceStep_ShrinksWithEveryChange(t *testing.T) {
	place, hit, tip := pastChange{variable: VaryPlace}, pastChange{variable: VaryContact}, pastChange{variable: VaryTip}
	for _, c := range []struct {
		name   string
		before []pastChange
		seen   breakTally
		want   float64
	}{
		{"all of ten on one side", nil, breakTally{misses: missCounts{side: 10}}, 4},
		{"four more than on the other", nil, breakTally{wingMade: 4, misses: missCounts{side: 5, foot: 1}}, 3},
		{"the same, six misses unseen", nil, breakTally{wingMade: 4, misses: missCounts{side: 5, foot: 1, unseen: 6}}, 3},
		{"all of ten, the fourth step", []pastChange{place, place, place}, breakTally{misses: missCounts{side: 10}}, 4},
		{"one more", nil, breakTally{wingMade: 19, misses: missCounts{side: 1}}, 1},
		{"the second step", []pastChange{place}, breakTally{wingMade: 4, misses: missCounts{side: 5, foot: 1}}, 2},
		{"after a hit", []pastChange{hit}, breakTally{wingMade: 4, misses: missCounts{side: 5, foot: 1}}, 2},
		{"after a tip", []pastChange{tip}, breakTally{wingMade: 4, misses: missCounts{side: 5, foot: 1}}, 3},
		{"the ninth step", []pastChange{place, place, hit, hit, place, place, place, place}, breakTally{wingMade: 1, misses: missCounts{side: 9}}, 2},
	} {
		l := analysisWith(t, standardSetup(), c.seen)
		l.pastChanges = c.before
		if got := l.balanceStep(missBalanceRule.Numbers, outward); got != c.want {
			t.Errorf("%s: %v in, want %v", c.name, got, c.want)
		}
	}
}

// A hit off full by 0.15 in or more, the way that makes misses like these, is the likelier
// cause than a place that is out of the ordinary by less: four inches of place do what a
// quarter of an inch of the hit does, and two of them are forgiven.
func TestContactExplains_RatherThanThePlace(t *testing.T) {
	for _, c := range []struct {
		contact table.Inches
		out     table.Inches
		towards direction
		want    bool
	}{
		{0.15, 18, outward, true}, {0.14, 18, outward, false}, {-0.15, 18, inward, true}, {0.15, 18, inward, false},
		{0.25, 13, outward, true}, {0.25, 12, outward, false}, {0.2, 12.5, outward, false}, {0.2, 13, outward, true}, {0.25, 18, inward, false},
	} {
		s := setupAtDistance(c.out)
		s.Contact = c.contact
		if got := analysisOf(scripted(t, s, ordinaryWing, "w")).contactExplains(c.towards); got != c.want {
			t.Errorf("contact %v from %v in, towards %v: explains %v", c.contact, c.out, c.towards, got)
		}
	}
}

// A place four inches from the ordinary, the way that makes misses like these, may well be
// to blame.
func TestPlaceExplains_FromFourInchesOn(t *testing.T) {
	for out, want := range map[table.Inches][2]bool{14: {true, false}, 14.5: {false, false}, 21.5: {false, false}, 22: {false, true}} {
		l := analysisOf(scripted(t, setupAtDistance(out), ordinaryWing, "w"))
		if got := [2]bool{l.placeExplains(outward), l.placeExplains(inward)}; got != want {
			t.Errorf("%v in out: too central and too far out are %v, want %v", out, got, want)
		}
	}
}

// The line of one-sided misses is at half of them where the case has been made: by a search
// that is on, by hardly any makes, or by a place or a hit that is out of the ordinary.
func TestMissBalance_LineIsLowerWhereTheCaseIsMade(t *testing.T) {
	seen := breakTally{breaks: 20, watched: 20, wingMade: 9, misses: missCounts{side: 8, foot: 3}}
	// Under three in ten, which is far below a target of one in two: 98 and 84 per cent sure.
	few, notFewEnough := seen, seen
	few.wingMade, notFewEnough.wingMade = 2, 4
	hit := setupWithContact(0.3)
	for _, c := range []struct {
		name string
		l    *analysis
		line float64
	}{
		{"an ordinary setup", analysisWith(t, standardSetup(), seen), missBalanceRule.Numbers.Line + placeBenefit},
		{"a place two inches off", analysisWith(t, setupAtDistance(16), seen), missBalanceRule.Numbers.Line + placeBenefit/2},
		{"a place four inches off", analysisWith(t, setupAtDistance(14), seen), 0.5},
		{"a hit off full", analysisWith(t, hit, seen), 0.5},
		{"hardly any makes", analysisWith(t, standardSetup(), few), 0.5},
		{"few makes", analysisWith(t, standardSetup(), notFewEnough), missBalanceRule.Numbers.Line + placeBenefit},
		{"a search that is on", movedOut(t, 16, 18), 0.5},
	} {
		*c.l.currentTally() = seen
		switch c.name {
		case "hardly any makes":
			*c.l.currentTally() = few
		case "few makes":
			*c.l.currentTally() = notFewEnough
		}
		if got := observeMissBalance(c.l, missBalanceRule.Numbers); math.Abs(got.line-c.line) > 1e-9 {
			t.Errorf("%s: the line is %v, want %v", c.name, got.line, c.line)
		}
	}
}

// Fewer than three misses that say which way settle nothing, and none are no pattern.
func TestMissBalance_FromThreeMissesOn(t *testing.T) {
	for side, want := range map[int]struct{ certain, settles bool }{0: {false, false}, 1: {false, true}, 2: {false, true}, 3: {true, true}} {
		l := analysisWith(t, setupAtDistance(14), breakTally{breaks: 5, watched: 5, misses: missCounts{side: side}})
		s := observeMissBalance(l, missBalanceRule.Numbers)
		if s.certainty > 0.5 != want.certain || s.canSettle != want.settles || side == 0 && s.certainty != 0 || side > 0 && s.towards != outward {
			t.Errorf("%d on the side rail: %+v", side, s)
		}
	}
	l := analysisWith(t, setupCentreOnSpot(), breakTally{breaks: 10, watched: 10, misses: missCounts{side: 10}})
	if s := observeMissBalance(l, missBalanceRule.Numbers); s.certainty != 0 || s.canSettle {
		t.Errorf("with the centre ball on the spot: %+v", s)
	}
}

// A place that is good is left alone. While a search is on, one that is not surely good is
// not, where nearly all that still misses does so on one side.
func TestMissBalance_LeavesAGoodPlaceAlone(t *testing.T) {
	for _, c := range []struct {
		name       string
		of, made   int
		side, foot int
		asSureAs   float64 // of the misses alone; 0 for the doubt of the place
	}{
		{"just under the target", 21, 10, 7, 3, 0.887},
		{"at it", 20, 10, 7, 3, 0.887},
		{"just over it", 21, 11, 7, 3, 0},
		{"just over it, nearly all on one side", 21, 11, 8, 2, 0.967},
		{"surely over it, nearly all on one side", 21, 15, 6, 0, 0},
	} {
		l := movedOut(t, 16, 18)
		*l.currentTally() = breakTally{breaks: c.of, watched: c.of, wingMade: c.made, misses: missCounts{side: c.side, foot: c.foot}}
		want := c.asSureAs
		if want == 0 {
			want = certaintyBelow(c.made, c.of, l.targets.Wing)
		}
		if s := observeMissBalance(l, missBalanceRule.Numbers); math.Abs(s.certainty-want) > 0.001 {
			t.Errorf("%s: %v sure, want %v", c.name, s.certainty, want)
		}
	}
}

// The cue ball's ends point to the hit when it scratches in the far side pocket surely more
// than six times in a hundred, from two on, or when most of what was seen stopped across.
func TestCueBallThrown_ByItsEnds(t *testing.T) {
	for _, c := range []struct {
		name string
		cue  cueTally
		far  bool
		near bool
	}{
		{"in the window", cueTally{across: 10}, false, false},
		{"one scratch in two breaks", cueTally{across: 2, scratchFar: 1}, false, false},
		{"two scratches", cueTally{across: 18, scratchFar: 2}, false, false},
		{"three scratches", cueTally{across: 17, scratchFar: 3}, true, false},
		{"three in the near pocket", cueTally{across: 17, scratchNear: 3}, false, true},
		{"eleven of twenty across", cueTally{across: 20, farSide: 11}, false, false},
		{"twelve of twenty across", cueTally{across: 20, farSide: 12}, true, false},
		{"twelve of twenty on the near side", cueTally{across: 20, nearSide: 12}, false, true},
		{"eleven across and a scratch", cueTally{across: 19, farSide: 11, scratchFar: 1}, true, false},
	} {
		l := analysisWith(t, standardSetup(), breakTally{breaks: 20, watched: 20, cue: c.cue})
		if far, near := l.cueBallThrown(outward), l.cueBallThrown(inward); far != c.far || near != c.near {
			t.Errorf("%s: thrown across is %v and to the near side %v", c.name, far, near)
		}
	}
	l := analysisWith(t, standardSetup(), breakTally{breaks: 8, watched: 8, cue: cueTally{across: 6, scratchFar: 2}})
	if !l.cueBallThrown(outward) {
		t.Error("two scratches in eight breaks say nothing")
	}
}

// Misses on the side rail lean out, and those on the foot rail in.
func TestMissesLean_BothWays(t *testing.T) {
	l := analysisWith(t, standardSetup(), breakTally{breaks: 10, watched: 10, misses: missCounts{side: 6, foot: 1}})
	if out, in := l.missesLean(outward), l.missesLean(inward); !(out > 0.9) || !(in < 0.1) {
		t.Errorf("six on the side rail and one on the foot rail lean out by %v and in by %v", out, in)
	}
}

// However small the step, the hit moves by a tenth of an inch or more.
func TestProposeBalanceChanges_MovesTheHitATenth(t *testing.T) {
	seen := breakTally{breaks: 20, watched: 20, wingMade: 19, misses: missCounts{side: 1}} // a step of one inch
	for _, c := range []struct {
		name    string
		contact table.Inches
		towards direction
		want    table.Inches
	}{
		{"the other way than the place", 0.14, inward, 0.2},
		{"off full, toward full", 0.34, outward, 0.2},
		{"off full, toward full, by a tenth and no more", 0.36, outward, 0.3},
	} {
		l := analysisWith(t, setupWithContact(c.contact), seen)
		for _, change := range proposeBalanceChanges(l, missBalanceRule.Numbers, observation{towards: c.towards}) {
			if change.variable == VaryContact && change.to.Contact != c.want {
				t.Errorf("%s: from %v to %v, want %v", c.name, c.contact, change.to.Contact, c.want)
			}
			if change.variable == VaryContact {
				break // the first is the one that is told
			}
		}
	}
}

// As many misses on one side as on the other are counted with those too far out.
func TestMissBalance_AsManyOnBothSides(t *testing.T) {
	l := analysisWith(t, standardSetup(), breakTally{breaks: 10, watched: 10, wingMade: 4, misses: missCounts{side: 3, foot: 3}})
	if s := observeMissBalance(l, missBalanceRule.Numbers); s.towards != inward || s.count != 3 || s.of != 6 || s.certainty > 0.5 {
		t.Errorf("three on each side: %+v", s)
	}
}

// What is told counts each miss that was noted once, though the rule weighs kisses less
// and lets the jaws out.
func TestMissBalance_TellsWhatWasSeen(t *testing.T) {
	for _, c := range []struct {
		misses    missCounts
		count, of int
		says      string
	}{
		{missCounts{kissed: 13, unseen: 4}, 13, 13, "All 13 misses that were noted met the foot rail first, or were kissed by another ball."},
		{missCounts{side: 14, jaws: 1}, 14, 15, "14 of the 15 misses that were noted met the side rail first."},
		{missCounts{side: 1, foot: 4, kissed: 4, jaws: 1}, 8, 10, "Eight of the ten misses that were noted met the foot rail first, or were kissed by another ball."},
	} {
		l := analysisWith(t, standardSetup(), breakTally{breaks: 20, watched: 20, wingMade: 3, misses: c.misses})
		f := l.newFinding(RuleMissBalance, observeMissBalance(l, missBalanceRule.Numbers))
		if f.Count != c.count || f.Of != c.of || f.Says != c.says {
			t.Errorf("%+v: %d of %d, %q", c.misses, f.Count, f.Of, f.Says)
		}
	}
}

// One kiss in ten breaks befalls anybody; of the others every second counts as too far out.
func TestDirectedMisses_OneKissInTenIsLuck(t *testing.T) {
	for _, c := range []struct{ kissed, breaks, long int }{
		{1, 9, 1}, {1, 10, 0}, {2, 10, 1}, {3, 10, 1}, {4, 10, 2}, {2, 20, 0}, {0, 10, 0},
	} {
		if got := (missCounts{kissed: c.kissed, side: 2}).directedMisses(c.breaks); got.Long != c.long || got.Short != 2 {
			t.Errorf("%d kissed in %d breaks: %+v, want %d too far out", c.kissed, c.breaks, got, c.long)
		}
	}
}
