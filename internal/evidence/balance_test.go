package evidence

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// From a flat start P(more than half long) after l long and s short is the chance
// of at most l heads in l+s+1 fair tosses.
func TestBalance_ProbLong(t *testing.T) {
	cases := []struct {
		misses MissBalance
		want   float64
	}{
		{MissBalance{0, 0}, .5}, {MissBalance{1, 0}, 3.0 / 4}, {MissBalance{3, 3}, .5},
		{MissBalance{7, 1}, 1 - 10.0/512}, {MissBalance{1, 7}, 10.0 / 512}, {MissBalance{6, 0}, 1 - 1.0/128},
	}
	for _, c := range cases {
		near(t, fmt.Sprintf("%+v", c.misses), c.misses.ProbLong(), c.want, 1e-12)
	}
}

func TestBalance_TwoSides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := MissBalance{rapid.IntRange(0, 500).Draw(t, "long"), rapid.IntRange(0, 500).Draw(t, "short")}
		near(t, "long and short", b.ProbLong()+b.ProbShort(), 1, 1e-12)
		if b.Surplus() > 0 && (MissBalance{2 * b.Long, 2 * b.Short}).ProbLong() < b.ProbLong()-1e-12 {
			t.Fatalf("%+v twice is less certain than once", b)
		}
	})
}

// Robbins and Monro (1951), worked by hand: at 12, gain 8, set 1, seven long and
// one short of ten: 12 - 8 × 0.6 = 7.2.
func TestSearch_StepByHand(t *testing.T) {
	search := StepSearch{Gain: 8, Decay: 1}
	near(t, "set 1", 12+search.NextStep(1, 10, MissBalance{7, 1}), 7.2, 1e-12)
	near(t, "set 2", search.NextStep(2, 10, MissBalance{7, 1}), -2.4, 1e-12)
	near(t, "set 4, slower decay", StepSearch{Gain: 8, Decay: .5}.NextStep(4, 10, MissBalance{1, 7}), 2.4, 1e-12)
	near(t, "balanced", search.NextStep(1, 10, MissBalance{2, 2}), 0, 0)
	for _, c := range []struct {
		set, breaks int
		misses      MissBalance
	}{{0, 10, MissBalance{7, 1}}, {1, 0, MissBalance{}}, {1, 10, MissBalance{9, 5}}, {1, 10, MissBalance{-1, 5}}} {
		if got := search.NextStep(c.set, c.breaks, c.misses); got != 0 {
			t.Errorf("Step(%d, %d, %v) = %g, want no move", c.set, c.breaks, c.misses, got)
		}
	}
}

// With the expected surplus instead of a random one the search must walk to the
// place where misses balance, from either side.
func TestSearch_EndsWhereMissesBalance(t *testing.T) {
	const best, tolerance = 6.0, 3.0
	for _, start := range []float64{0, 3, 12, 15} {
		place := start
		for set := 1; set <= 12; set++ {
			error := place - best
			long := int(math.Round(10 * (1 - normalCDF((tolerance-error)/3))))
			short := int(math.Round(10 * normalCDF((-tolerance-error)/3)))
			place += StepSearch{Gain: 8, Decay: .5}.NextStep(set, 10, MissBalance{long, short})
		}
		near(t, fmt.Sprintf("end from %g", start), place, best, .5)
	}
}
