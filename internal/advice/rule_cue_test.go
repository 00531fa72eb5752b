package advice

import (
	"math"
	"testing"

	"breakwright/internal/drill"
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
