package evidence

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Efron and Morris (1975), JASA 70:311: eighteen players, 45 tries each, and the
// rate of each over the remainder of the season.
var (
	efronMorrisMade = []int{18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7}
	efronMorrisRest = []float64{.346, .298, .276, .222, .273, .270, .263, .210, .269, .230, .264, .256, .303, .264, .226, .285, .316, .200}
)

func efronMorris() []Count {
	counts := make([]Count, len(efronMorrisMade))
	for i, made := range efronMorrisMade {
		counts[i] = Count{made, 45}
	}
	return counts
}

// expand repeats values by the number of players who share them.
func expand(values ...float64) []float64 {
	var all []float64
	for i, times := range []int{1, 1, 1, 1, 2, 1, 1, 2, 5, 1, 1, 1} {
		for range times {
			all = append(all, values[i])
		}
	}
	return all
}

func squaredError(estimates []float64) float64 {
	sum := 0.0
	for i, estimate := range estimates {
		sum += (estimate - efronMorrisRest[i]) * (estimate - efronMorrisRest[i])
	}
	return sum
}

// The beta-binomial column, computed independently.
func TestFitPopulation_EfronMorris(t *testing.T) {
	p := FitPopulation(efronMorris())
	near(t, "mean", p.Mean, .265432, digits(6))
	near(t, "strength", p.Strength, 367.988, digits(3))
	prior := Beta{A: p.Mean * p.Strength, B: (1 - p.Mean) * p.Strength}
	near(t, "a", prior.A, 97.676, digits(3))
	near(t, "b", prior.B, 270.312, digits(3))
	want := expand(.2801, .2777, .2753, .2728, .2704, .2680, .2656, .2631, .2607, .2583, .2559, .2535)
	got := make([]float64, len(want))
	for i, c := range efronMorris() {
		got[i] = p.ShrinkRate(c)
		near(t, fmt.Sprintf("%d of 45", c.Made), got[i], want[i], digits(4))
		near(t, "shrinking is the posterior mean", BetaFromCounts(c.Made, c.Tried, prior).Mean(), got[i], 1e-9)
	}
	near(t, "error", squaredError(got), .02182, digits(5))
}

// Six sets of ten, computed independently.
func TestFitPopulation_SetsOfTen(t *testing.T) {
	wild := FitPopulation(tens(1, 9, 3, 5, 8, 4))
	near(t, "mean", wild.Mean, .5, 1e-12)
	near(t, "strength", wild.Strength, 2.358209, digits(6))
	near(t, "1 of 10", wild.ShrinkRate(Count{1, 10}), .176329, digits(6))
	near(t, "9 of 10", wild.ShrinkRate(Count{9, 10}), .823671, digits(6))
	even := FitPopulation(tens(4, 6, 3, 5, 7, 5))
	if !math.IsInf(even.Strength, 1) {
		t.Errorf("sets closer than luck: strength %g, want infinite", even.Strength)
	}
	near(t, "7 of 10 among equals", even.ShrinkRate(Count{7, 10}), .5, 1e-12)
}

func tens(made ...int) []Count {
	counts := make([]Count, len(made))
	for i, k := range made {
		counts[i] = Count{k, 10}
	}
	return counts
}

func TestFitPopulation_Edges(t *testing.T) {
	cases := []struct {
		name   string
		counts []Count
		mean   float64
	}{
		{"nobody", nil, .5}, {"one", tens(3), .3}, {"all nought", tens(0, 0, 0), 0}, {"all made", tens(10, 10), 1},
		{"nonsense left out", []Count{{11, 10}, {0, 0}, {-1, 3}, {3, 10}}, .3}, {"single breaks", []Count{{1, 1}, {0, 1}}, .5},
	}
	for _, c := range cases {
		p := FitPopulation(c.counts)
		if !math.IsInf(p.Strength, 1) || math.Abs(p.Mean-c.mean) > 1e-12 {
			t.Errorf("%s: %+v, want mean %g and infinite strength", c.name, p, c.mean)
		}
	}
	near(t, "rate of nothing tried", Count{}.Rate(), 0, 0)
	alone := FitPopulation(tens(0, 10, 0, 10))
	near(t, "all or nothing: each stands alone", alone.Strength, 0, 1e-9)
	near(t, "and keeps its rate", alone.ShrinkRate(Count{10, 10}), 1, 1e-9)
}

// A shrunken rate lies between the raw rate and the mean, keeps the order of
// equally long counts, and misses give the mirror image.
func TestShrink_Properties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var counts, mirrored []Count
		for range rapid.IntRange(0, 12).Draw(t, "members") {
			made, tried := drawCount(t, 60, "count")
			counts, mirrored = append(counts, Count{made, tried}), append(mirrored, Count{tried - made, tried})
		}
		p, m := FitPopulation(counts), FitPopulation(mirrored)
		near(t, "mirrored mean", m.Mean, 1-p.Mean, 1e-9)
		for i, c := range counts {
			got := p.ShrinkRate(c)
			near(t, "mirror", m.ShrinkRate(mirrored[i]), 1-got, 1e-6)
			if c.Tried > 0 && !(math.Min(c.Rate(), p.Mean)-1e-12 <= got && got <= math.Max(c.Rate(), p.Mean)+1e-12) {
				t.Fatalf("%+v shrinks to %g, outside %g..%g", c, got, c.Rate(), p.Mean)
			}
		}
	})
}
