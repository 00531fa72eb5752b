package evidence

import (
	"math"
	"testing"
)

// Where a rate cannot lie, and where a belief is none.
func TestBeta_Edges(t *testing.T) {
	b := Beta{A: 3, B: 9}
	if b.ProbBelow(1) != 1 || b.ProbBelow(1.5) != 1 || b.ProbBelow(0) != 0 || b.ProbBelow(-0.5) != 0 {
		t.Error("a rate lies from 0 to 1")
	}
	for _, broken := range []Beta{{0, 5}, {5, 0}, {-1, 5}, {5, -1}, {math.Inf(1), 5}, {5, math.Inf(1)}, {math.NaN(), 5}} {
		if broken.Mean() != 0.5 || broken.ProbBelow(0.25) != 0.25 {
			t.Errorf("%v is no distribution and counts as uniform: mean %g", broken, broken.Mean())
		}
	}
}

// The third standardised moment of Beta(2, 5), from its integral:
// E[x] = 2/7, E[x²] = 2·3/(7·8), E[x³] = 2·3·4/(7·8·9).
func TestBeta_SkewnessFromMoments(t *testing.T) {
	m1, m2, m3 := 2.0/7, 6.0/56, 24.0/504
	variance := m2 - m1*m1
	want := (m3 - 3*m1*variance - m1*m1*m1) / math.Pow(variance, 1.5)
	if got := (Beta{A: 2, B: 5}).skewness(); math.Abs(got-want) > 1e-12 {
		t.Errorf("skewness %g, want %g", got, want)
	}
}

// With a margin of everything no change is worth talking about; with none, every
// change is one side's.
func TestCompareRates_WidestAndNarrowestMargin(t *testing.T) {
	before, after := Beta{A: 3, B: 9}, Beta{A: 8, B: 4}
	if got := CompareRates(before, after, 1); got.Helped != 0 || got.Hurt != 0 || got.NoDifference != 1 {
		t.Errorf("with a margin of 1: %+v", got)
	}
	if got := CompareRates(before, after, -1); got.NoDifference != 0 || got.Helped+got.Hurt != 1 {
		t.Errorf("with no margin: %+v", got)
	}
}

func TestPlaceCurve_NearestPlaces(t *testing.T) {
	c := &PlaceCurve{places: []float64{0, 2, 4}}
	for x, want := range map[float64][2]int{-1: {0, 0}, 0: {0, 0}, 0.5: {0, 0}, 1: {0, 1}, 1.5: {1, 1}, 2: {1, 1}, 3: {1, 2}, 9: {2, 2}} {
		if first, second := c.nearestPlaces(x); first != want[0] || second != want[1] {
			t.Errorf("nearest to %g are %d and %d, want %v", x, first, second, want)
		}
	}
}

// A uniform belief is above 0.45 with the chance 0.55, exactly at a certainty of
// so much; where both sides are certain enough the likelier one is the answer.
func TestLineQuestion_AtItsCertainty(t *testing.T) {
	uniform := UniformPrior()
	for _, c := range []struct {
		line, certainty float64
		want            LineAnswer
	}{
		{0.25, 0.75, Above}, {0.25, 0.76, Unsure}, {0.75, 0.75, Below}, {0.75, 0.76, Unsure},
		{0.45, 0.4, Above}, {0.55, 0.4, Below}, {0.5, 0.5, Above},
	} {
		if got := (LineQuestion{Line: c.line, Certainty: c.certainty}).AnswerFor(uniform); got != c.want {
			t.Errorf("above %g with %g: %v, want %v", c.line, c.certainty, got, c.want)
		}
	}
}

func TestBreaksToSettle_NoRoomForAny(t *testing.T) {
	q := LineQuestion{Line: 0.5, Certainty: 0.9}
	for _, most := range []int{-5, 0} {
		if breaks, likely := q.BreaksToSettle(UniformPrior(), SettlingLimits{Chance: 0.5, Step: 10, Most: most}); breaks != 0 || likely {
			t.Errorf("at most %d breaks: %d, likely %v", most, breaks, likely)
		}
	}
}

// One miss to a side, of one break, is the whole gain; nonsense moves nothing.
func TestStepSearch_Edges(t *testing.T) {
	s := StepSearch{Gain: 4, Decay: 1}
	for _, c := range []struct {
		set, breaks int
		misses      MissBalance
		want        float64
	}{
		{1, 1, MissBalance{Long: 1}, -4}, {1, 1, MissBalance{Short: 1}, 4}, {2, 1, MissBalance{Short: 1}, 2},
		{0, 1, MissBalance{Short: 1}, 0}, {1, 0, MissBalance{}, 0}, {1, 2, MissBalance{Short: 3}, 0},
		{1, 9, MissBalance{Long: -1, Short: 2}, 0}, {1, 9, MissBalance{Long: 2, Short: -1}, 0},
	} {
		if got := s.NextStep(c.set, c.breaks, c.misses); got != c.want {
			t.Errorf("%+v: %g", c, got)
		}
	}
}

// Of equal places the nearest is next, and the lower of two as near.
func TestPlaceBelief_EqualPlaces(t *testing.T) {
	c := &PlaceCurve{places: []float64{0, 2, 4, 6}}
	b := PlaceBelief{curve: c, Places: c.places, Mean: []float64{0.5, 0.5, 0.5, 0.5}, SD: make([]float64, 4)}
	for from, want := range map[float64]int{3: 1, 2.5: 1, 3.5: 2, 6: 3, 0: 0} {
		if got := b.NextPlace(from, 1, 10); got != want {
			t.Errorf("from %g the next is %d, want %d", from, got, want)
		}
	}
	if b.BestPlace() != 0 {
		t.Errorf("of equal places the best is %d, want the lowest", b.BestPlace())
	}
}

func TestNewPlaceCurve_NoWidth(t *testing.T) {
	one := []WeightedValue{{Value: 0.5, Weight: 1}}
	for width, taken := range map[float64]bool{-1: false, 0: false, 0.5: true} {
		grid := PlaceGrid{Places: []float64{0, 1}, Peaks: one, Centres: one, Widths: []WeightedValue{{Value: width, Weight: 1}}}
		if _, err := NewPlaceCurve(grid); (err == nil) != taken {
			t.Errorf("a width of %g: %v, want it taken: %v", width, err, taken)
		}
	}
}
