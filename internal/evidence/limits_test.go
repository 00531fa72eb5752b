package evidence

import (
	"math"
	"testing"
)

// What is asked past the ends of 0..1 has the end for its answer, and a level that is none
// the widest interval.
func TestBeta_PastTheEnds(t *testing.T) {
	b := Beta{A: 3, B: 5}
	for p, want := range map[float64]float64{-0.5: 0, 0: 0, 1: 1, 1.5: 1} {
		if got := b.Quantile(p); got != want {
			t.Errorf("below what rate lie %v of it: %v, want %v", p, got, want)
		}
	}
	for _, level := range []float64{-0.5, 0, 1, 1.5} {
		if got := b.CentralInterval(level); got != (Interval{Low: 0, High: 1}) {
			t.Errorf("at a level of %v: %+v", level, got)
		}
	}
}

// One of one says something, and none of none nothing.
func TestJeffreysInterval_OfOneAndOfNone(t *testing.T) {
	if got := JeffreysInterval(1, 1, 0.95); !(got.Low > 0.1) || got.High != 1 {
		t.Errorf("one of one: %+v", got)
	}
	if got := JeffreysInterval(0, 0, 0.95); got != (Interval{Low: 0, High: 1}) {
		t.Errorf("none of none: %+v", got)
	}
}

// Two beliefs that are one differ by a margin as likely this way as that, and most likely
// by less.
func TestCompareRates_AlikeByAMargin(t *testing.T) {
	b := BetaFromCounts(50, 100, UniformPrior())
	e := CompareRates(b, b, 0.05)
	if math.Abs(e.Helped-e.Hurt) > 1e-9 || !(e.Helped < 0.3) || !(e.NoDifference > 0.4) {
		t.Errorf("%+v", e)
	}
}

// A grid of one value is that value, and a peak or a width of none is no curve.
func TestPlaceGrid_Ends(t *testing.T) {
	if got := EvenlySpaced(5, 5, 1); len(got) != 1 || got[0].Value != 5 {
		t.Errorf("from 5 to 5: %v", got)
	}
	if got := EvenlySpaced(5, 4, 1); got != nil {
		t.Errorf("from 5 to 4: %v", got)
	}
	for _, peak := range []float64{0, 1} {
		grid := InchGrid(0, 20)
		grid.Peaks = []WeightedValue{{Value: peak, Weight: 1}}
		if _, err := NewPlaceCurve(grid); err == nil {
			t.Errorf("a best rate of %v is a curve", peak)
		}
	}
}

// The first set that is likely enough is given, the last of them too, and without a size
// sets are of one break.
func TestBreaksToSettle_TheLastSetToo(t *testing.T) {
	q := LineQuestion{Line: 0.5, Certainty: 0.9}
	for step := range 2 {
		if breaks, likely := q.BreaksToSettle(UniformPrior(), SettlingLimits{Chance: 0, Step: step, Most: 1}); breaks != 1 || !likely {
			t.Errorf("in steps of %d: %d breaks, likely %v", step, breaks, likely)
		}
	}
}

// One break moves a member's rate, and two members who tried twice each can differ by more
// than luck.
func TestPopulation_OfFewBreaks(t *testing.T) {
	if got := (Population{Mean: 0.5, Strength: 1}).ShrinkRate(Count{Made: 1, Tried: 1}); got != 0.75 {
		t.Errorf("one of one in a group of strength 1: %v, want 0.75", got)
	}
	if got := FitPopulation([]Count{{Made: 2, Tried: 2}, {Made: 0, Tried: 2}}); got != (Population{Mean: 0.5, Strength: 0}) {
		t.Errorf("two of two and none of two: %+v", got)
	}
}
