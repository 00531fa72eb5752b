package advice

import (
	"math"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Where cue balls scatter by feet, six of ten beyond the window on one side
// come of luck: an ordinary tip waits for more, a tip that is off does not.
func TestTip_AnOrdinaryOneIsSeldomToBlame(t *testing.T) {
	const sixBack = "bbrwwbbwbw"
	for tip, want := range map[drill.RadiusFraction]Verdict{ordinaryTip: More, 0: More, -0.4: Change} {
		a := judgePatterns(numberSets(scripted(t, setupWithTip(tip), ordinaryWing, sixBack)), Brief{})
		if a.Verdict != want {
			t.Errorf("tip %v: verdict %s, want %s", tip, a.Verdict, want)
		}
	}
}

// A cue ball that stops in the window as often as it should is left alone,
// whichever side the others end on.
func TestTip_QuietWhileTheWindowIsGood(t *testing.T) {
	h := numberSets(scripted(t, setupWithTip(-0.4), ordinaryWing, "bbbbwwwwww"), scripted(t, setupWithTip(-0.4), ordinaryWing, "bbbbwwwwww"))
	if a := judgePatterns(h, Brief{}); a.Prescription != nil && a.Prescription.Variable == VaryTip {
		t.Errorf("the tip is moved to %v though 12 of 20 stop in the window", a.Prescription.To)
	}
}

// A step of the tip that turns back on the last one is smaller than it.
func TestTip_TurningBackHalvesTheStep(t *testing.T) {
	first := scripted(t, setupWithTip(0.2), ordinaryWing, "ffffffffff")
	a := judgePatterns(numberSets(first), Brief{})
	if a.Prescription == nil || a.Prescription.Variable != VaryTip {
		t.Fatalf("%+v: a cue ball that always goes forward wants more draw", a.Prescription)
	}
	step := math.Abs(float64(a.Next.Tip - 0.2))
	back := scripted(t, a.Next, ordinaryWing, "bbbbbbbbbb")
	then := judgePatterns(numberSets(first, back), Brief{})
	if then.Prescription == nil || then.Prescription.Variable != VaryTip {
		return // another part answers, or the coach decides: nothing swings back
	}
	if by := math.Abs(float64(then.Next.Tip - a.Next.Tip)); by > step/2+1e-9 {
		t.Errorf("after a step of %.1f it swings back by %.1f", step, by)
	}
}

// From a tip of 0.15 under centre on, the way the cue ball took cannot be told from where
// it stopped.
func TestNeedsCuePath_FromHowMuchDrawOn(t *testing.T) {
	for tip, want := range map[drill.RadiusFraction]bool{-0.14: false, -0.15: true, -0.18: true, 0: false} {
		if got := analysisOf(scripted(t, setupWithTip(tip), ordinaryWing, "w")).needsCuePath(); got != want {
			t.Errorf("under a tip of %v: %v", tip, got)
		}
	}
}

// A cue ball that goes on wants a lower tip, unless the hit is the likelier cause: off full
// by more of its steps than the tip is high, or thrown the way the wing ball misses.
func TestMoreDraw_TheTipOrTheHit(t *testing.T) {
	side, foot := missCounts{side: 7}, missCounts{foot: 7}
	thrown := cueTally{across: 20, farSide: 16}
	for _, c := range []struct {
		name    string
		contact table.Inches
		tip     drill.RadiusFraction
		misses  missCounts
		cue     cueTally
		first   Variable
		to      float64
	}{
		{"nothing else", 0, -0.1, missCounts{}, cueTally{}, VaryTip, -0.2},
		{"off full by 0.14", 0.14, -0.1, missCounts{}, cueTally{}, VaryTip, -0.2},
		{"off full by 0.16", 0.16, -0.1, missCounts{}, cueTally{}, VaryContact, 0},
		{"off full by far", 0.46, -0.1, missCounts{}, cueTally{}, VaryContact, 0.3},
		{"off full by far on the near side", -0.46, -0.1, missCounts{}, cueTally{}, VaryContact, -0.3},
		{"off full as far as the tip is high", 0.2, 0.1, missCounts{}, cueTally{}, VaryTip, 0},
		{"side rail first", 0, -0.1, side, cueTally{}, VaryTip, -0.2},
		{"thrown across", 0, -0.1, missCounts{}, thrown, VaryTip, -0.2},
		{"side rail first and thrown across", 0, -0.1, side, thrown, VaryContact, -0.2},
		{"foot rail first", 0, -0.1, foot, cueTally{}, VaryContact, 0.2},
		{"foot rail first, and the tip is too high", 0, 0.07, foot, cueTally{}, VaryTip, 0},
		{"foot rail first, and the tip is far too high", 0, 0.1, foot, cueTally{}, VaryTip, 0},
	} {
		s := setupWithTip(c.tip)
		s.Contact = c.contact
		l := analysisWith(t, s, breakTally{breaks: 20, watched: 20, misses: c.misses, cue: c.cue})
		first := l.proposeMoreDraw(0.1)[0]
		got := map[Variable]float64{VaryTip: float64(first.to.Tip), VaryContact: float64(first.to.Contact)}[first.variable]
		if first.variable != c.first || math.Abs(got-c.to) > 1e-9 {
			t.Errorf("%s: %s to %v, want %s to %v", c.name, first.variable, got, c.first, c.to)
		}
	}
}

// From above the ordinary speed two thirds of what is over come off at once.
func TestSpeedReduction_TwoThirdsOfWhatIsOver(t *testing.T) {
	for speed, want := range map[table.Mph]float64{16: 1, 18: 1, 19.5: 1, 20: 2, 21: 2, 23: 4, 24: 4} {
		if got := analysisOf(scripted(t, setupWithSpeed(speed), ordinaryWing, "w")).speedReduction(1); got != want {
			t.Errorf("from %v mph by %v, want %v", speed, got, want)
		}
	}
}

// A tip that is being moved goes on from the rule's own line.
func TestTipLine_IsTheRulesOwnForATipThatMoves(t *testing.T) {
	l := analysisOf(scripted(t, setupWithTip(0), ordinaryWing, "f"), scripted(t, setupWithTip(-0.1), ordinaryWing, "f"))
	n := forwardRule.Numbers
	if lower, higher := l.tipLine(n, inward), l.tipLine(n, outward); lower != n.Line || !(higher > n.Line) {
		t.Errorf("after a step down the line is %v for another and %v for one back", lower, higher)
	}
}

// While the cue ball stops in the window as often as it should, likelier than not, a rule
// of the tip is no surer than that it does not.
func TestUnlessWindowIsGood_LikelierThanNot(t *testing.T) {
	for in, quiet := range map[int]bool{9: false, 10: false, 11: true, 15: true} {
		l := analysisWith(t, standardSetup(), breakTally{breaks: 20, watched: 20, cue: cueTally{inWindow: in}})
		if got := l.unlessWindowIsGood(observation{certainty: 0.99}); (got.certainty < 0.5) != quiet || !quiet && got.certainty != 0.99 {
			t.Errorf("%d of twenty in the window: %v sure", in, got.certainty)
		}
	}
}

// A pattern in six of ten breaks doubles the step of the tip.
func TestTipStep_DoublesFromSixInTenOn(t *testing.T) {
	l := analysisOf(scripted(t, standardSetup(), ordinaryWing, "w"))
	for count, want := range map[int]float64{5: 0.1, 6: 0.2, 9: 0.2} {
		if got := l.tipStep(observation{count: count, of: 10}, 0.1); got != want {
			t.Errorf("%d of ten: a step of %v, want %v", count, got, want)
		}
	}
}

// A step of the tip that goes back on the last one is half of it, in whole tenths; of a
// tenth nothing is left, and the tip stays.
func TestMoveTip_HalvesTheStepBack(t *testing.T) {
	for _, c := range []struct {
		from, at drill.RadiusFraction
		by       float64
		to       drill.RadiusFraction
	}{
		{0.2, -0.2, 0.2, 0}, {0.1, -0.2, 0.2, -0.1}, {0, -0.2, 0.2, -0.1}, {-0.1, -0.2, 0.2, -0.2}, {0, -0.2, -0.2, -0.4}, {-0.4, 0, -0.2, -0.2},
	} {
		l := analysisOf(scripted(t, setupWithTip(c.from), ordinaryWing, "f"), scripted(t, setupWithTip(c.at), ordinaryWing, "b"))
		if got := l.moveTip(c.by).to.Tip; math.Abs(float64(got-c.to)) > 1e-9 {
			t.Errorf("from %v to %v, then by %v: to %v, want %v", c.from, c.at, c.by, got, c.to)
		}
	}
}
