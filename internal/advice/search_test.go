package advice

import (
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// far is a set far too central, near one a little too central, and over one
// that went past the best place.
const (
	farWing  = "sssssssmss"
	nearWing = "msssmssmsm"
	overWing = "ffmfffffmm"
)

func TestSearch_BiggerStepsFromFurtherOff(t *testing.T) {
	a := judgePatterns(numberSets(scripted(t, setupAtDistance(8), farWing, "w")), Brief{})
	if p := a.Prescription; p == nil || p.To.Number != -12 {
		t.Fatalf("nine misses on one side: %+v, want four inches", p)
	}
	// A small surplus on many breaks moves a little, once a search is on.
	little := strings.Repeat("mmsmf", 3) + "mssmsmmsms"
	a = judgePatterns(numberSets(scripted(t, setupAtDistance(10), farWing, "w"), scripted(t, setupAtDistance(14), little, "w")), Brief{})
	if p := a.Prescription; p != nil && p.To.Number < -16 {
		t.Fatalf("a small surplus: %+v, want two inches at most", p)
	}
}

func TestSearch_GoesOnWithLessCertaintyThanItBegan(t *testing.T) {
	start := numberSets(scripted(t, setupAtDistance(14), nearWing, "w"))
	if a := judgePatterns(start, Brief{}); a.Verdict != More {
		t.Fatalf("six of six misses on one side with four made: %s, want more", a.Verdict)
	}
	onward := numberSets(scripted(t, setupAtDistance(10), farWing, "w"), scripted(t, setupAtDistance(14), "msssmssmfs", "w"))
	p := judgePatterns(onward, Brief{}).Prescription
	if p == nil || p.Variable != VaryPlace || p.To.Number >= -14 {
		t.Fatalf("six of seven on the same side after a move: %+v, want further out", p)
	}
}

func TestSearch_HalvesWhenItOvershoots(t *testing.T) {
	a := judgePatterns(numberSets(scripted(t, setupAtDistance(10), farWing, "w"), scripted(t, setupAtDistance(14), overWing, "w")), Brief{})
	p := a.Prescription
	if p == nil || p.Variable != VaryPlace || p.To.Number != -12 {
		t.Fatalf("after four inches too far: %+v, want two back", p)
	}
	if !strings.Contains(p.Reason, "too far") {
		t.Errorf("the reason does not say so: %q", p.Reason)
	}
	a = judgePatterns(numberSets(
		scripted(t, setupAtDistance(10), farWing, "w"), scripted(t, setupAtDistance(14), overWing, "w"), scripted(t, setupAtDistance(12), farWing, "w"),
	), Brief{})
	if p := a.Prescription; p == nil || p.To.Number != -13 {
		t.Fatalf("after two inches back too far: %+v, want one out", p)
	}
}

// A student whose misses come to balance must not be sent to and fro, whichever
// way the luck of a set leans.
func TestSearch_NeverSeeSaws(t *testing.T) {
	leans := []string{"mfsmmsfmsf", "mfsmmsfmss", "mffmmsfmsf"} // 3-3, 2-4, 4-2
	for first := range leans {
		s := setupAtDistance(12)
		history := numberSets(scripted(t, s, farWing, "w"))
		turns, way := 0, direction(0)
		for i := range 12 {
			next := judgePatterns(history, Brief{}).Next
			if by := distanceOut(next) - distanceOut(s); by != 0 {
				now := outward
				if by < 0 {
					now = inward
				}
				if way != noDirection && now != way {
					turns++
				}
				way = now
			}
			s = next
			history = numberSets(append(history, scripted(t, s, leans[(first+i)%len(leans)], "w"))...)
		}
		if turns > 0 {
			t.Errorf("turned back %d times on misses that balance", turns)
		}
	}
}

func TestSearch_StopsAtTheLimits(t *testing.T) {
	for _, c := range []struct {
		name string
		from drill.Setup
		wing string
	}{
		{"out", setupAtDistance(22), farWing},
		{"in", setupAtDistance(1), strings.ReplaceAll(farWing, "s", "f")},
	} {
		t.Run(c.name, func(t *testing.T) {
			history := numberSets(scripted(t, c.from, c.wing, "w"))
			for range 12 {
				next := judgePatterns(history, Brief{}).Next
				if err := next.Check(history[0].Kind); err != nil {
					t.Fatalf("told %+v: %v", next, err)
				}
				history = numberSets(append(history, scripted(t, next, c.wing, "w"))...)
			}
		})
	}
}

func TestSearch_MakesAloneSearchOverPlaces(t *testing.T) {
	unseen := func(made int) string {
		return strings.Repeat("m", made) + strings.Repeat("-", 20-made)
	}
	history := numberSets(scripted(t, setupAtDistance(20), unseen(1), "w"))
	a := judgePatterns(history, Brief{})
	if a.Prescription == nil || a.Prescription.Rule != RuleWingUnseen || a.Prescription.To.Number != -18 {
		t.Fatalf("one of twenty, misses not seen: %+v, want two inches in", a.Prescription)
	}
	if len(a.Checks) == 0 {
		t.Error("nobody is asked to record the misses")
	}
	a = judgePatterns(numberSets(scripted(t, setupAtDistance(20), unseen(1), "w"), scripted(t, setupAtDistance(18), unseen(2), "w")), Brief{})
	if a.Prescription == nil || a.Prescription.To.Number <= -18 {
		t.Fatalf("still poor: %+v, want further in", a.Prescription)
	}
	if a.Places == nil || len(a.Places.Tried) != 2 || len(a.Places.Curve) == 0 || a.Places.Says == "" {
		t.Fatalf("places: %+v", a.Places)
	}
	widest := 0.0
	for _, at := range a.Places.Curve {
		if at.Low > at.Mean || at.High < at.Mean {
			t.Errorf("the band at %v is %v to %v, around %v", at.X, at.Low, at.High, at.Mean)
		}
		widest = max(widest, at.High-at.Low)
	}
	if a.Places.Level != 0.95 || widest < 0.6 { // of one standard deviation it is less than 0.5
		t.Errorf("the band of %v is at most %v wide", a.Places.Level, widest)
	}
	a = judgePatterns(numberSets(scripted(t, setupAtDistance(20), unseen(1), "w"), scripted(t, setupAtDistance(14), unseen(12), "w")), Brief{})
	if a.Verdict == Change {
		t.Errorf("a good place is not left alone: %+v", a.Prescription)
	}
}

// That searching further for the place can win little gives no break card yet: only the
// verdict that the setup stays does.
func TestJudge_NoCardBeforeTheVerdict(t *testing.T) {
	good, poor := strings.Repeat("mfmsmfmsmf", 2), strings.Repeat("mssssfssss", 10)
	var sets []drill.Set
	for _, out := range []table.Inches{10, 14, 22} {
		sets = append(sets, scripted(t, setupAtDistance(out), poor, "w"))
	}
	sets = append(sets, scripted(t, setupAtDistance(18), good, "w"))
	a := judgePatterns(numberSets(sets...), Brief{})
	if a.Verdict != More || !a.Places.Known || a.Card != nil {
		t.Errorf("verdict %s, the place known %v, card %+v", a.Verdict, a.Places.Known, a.Card)
	}
}

// However far off, the search goes four inches at a time.
func TestNextPlace_FourInchesAtMost(t *testing.T) {
	l := analysisWith(t, setupAtDistance(4), breakTally{breaks: 20, watched: 20})
	if got := l.nextPlace(); got != 8 {
		t.Errorf("from four inches out, where nothing was made, to %v, want 8", got)
	}
}
