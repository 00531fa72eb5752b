package evidence

import (
	"fmt"
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// Miller (2015), formula R, computed independently in two statistics libraries
// and in exact rational numbers; the Jeffreys column by independent quadrature.
func TestBetter_ReferenceTable(t *testing.T) {
	cases := []struct {
		first, second     [2]int
		uniform, jeffreys float64
	}{
		{[2]int{3, 10}, [2]int{6, 10}, 445.0 / 494, 0.91167652},
		{[2]int{4, 10}, [2]int{7, 10}, 445.0 / 494, 0.91167652},
		{[2]int{4, 10}, [2]int{5, 10}, 5585.0 / 8398, 0.67263854},
		{[2]int{5, 10}, [2]int{6, 10}, 5585.0 / 8398, 0.67263854},
		{[2]int{4, 10}, [2]int{6, 10}, 3370.0 / 4199, 0.81388826},
		{[2]int{4, 10}, [2]int{8, 10}, 310.0 / 323, 0.96745205},
		{[2]int{8, 20}, [2]int{12, 20}, 0.89164020, 0.89724890},
		{[2]int{12, 30}, [2]int{18, 30}, 0.93655809, 0.93966739},
		{[2]int{16, 40}, [2]int{24, 40}, 0.96168715, 0.96350116},
		{[2]int{24, 60}, [2]int{30, 60}, 0.86254514, 0.86457011},
		{[2]int{0, 10}, [2]int{1, 10}, 16.0 / 21, 0.82636455},
		{[2]int{3, 10}, [2]int{3, 10}, 0.5, 0.5},
	}
	for _, c := range cases {
		what := fmt.Sprintf("%v then %v", c.first, c.second)
		near(t, what+", uniform", better(c.first, c.second, UniformPrior()), c.uniform, digits(8))
		near(t, what+", Jeffreys", better(c.first, c.second, JeffreysPrior()), c.jeffreys, digits(8))
	}
}

func better(first, second [2]int, prior Beta) float64 {
	return ProbBetter(BetaFromCounts(first[0], first[1], prior), BetaFromCounts(second[0], second[1], prior))
}

// The sum, the integral and exact rational arithmetic are three ways to the same
// number.
func TestBetter_ThreeWaysAgree(t *testing.T) {
	for made1 := 0; made1 <= 10; made1 += 2 {
		for made2 := 0; made2 <= 20; made2 += 4 {
			first, second := BetaFromCounts(made1, 10, UniformPrior()), BetaFromCounts(made2, 20, UniformPrior())
			what := fmt.Sprintf("%d/10 then %d/20", made1, made2)
			exact := exactBetter(int64(first.A), int64(first.B), int64(second.A), int64(second.B))
			near(t, what+" by sum", ProbBetter(first, second), exact, 1e-12)
			near(t, what+" by integral", integrateExceeds(first, second, 0), exact, 1e-10)
		}
	}
}

// Only whole counts are summed: where one is not, whichever of the two, the integral says
// how much better.
func TestBetter_OfCountsThatAreNotWhole(t *testing.T) {
	whole := Beta{A: 3, B: 4}
	for _, b := range []Beta{{A: 2.5, B: 4}, {A: 3, B: 4.5}, {A: 2.5, B: 4.5}} {
		near(t, fmt.Sprintf("%v over whole counts", b), ProbBetter(whole, b), integrateExceeds(whole, b, 0), 1e-10)
		near(t, fmt.Sprintf("%v under whole counts", b), ProbBetter(b, whole), integrateExceeds(b, whole, 0), 1e-10)
	}
}

// exactBetter is the chance that the second of two betas with whole parameters
// is larger, in rational numbers: the chance, when aB+bB-1 and aA+bA-1 uniform
// points are thrown, that the aB-th of the second lies above the aA-th of the
// first, which is a sum of hypergeometric counts.
func exactBetter(aA, bA, aB, bB int64) float64 {
	n, m := aA+bA-1, aB+bB-1
	total := new(big.Rat)
	for below := int64(0); below < aB; below++ {
		// 'below' points of the second precede the aA-th of the first.
		ways := new(big.Int).Binomial(aA-1+below, below)
		ways.Mul(ways, new(big.Int).Binomial(n-aA+m-below, m-below))
		total.Add(total, new(big.Rat).SetFrac(ways, new(big.Int).Binomial(n+m, m)))
	}
	value, _ := total.Float64()
	return value
}

func TestBetter_Properties(t *testing.T) {
	priors := []Beta{UniformPrior(), JeffreysPrior(), {A: 2.3, B: 4.1}}
	rapid.Check(t, func(t *rapid.T) {
		prior := rapid.SampledFrom(priors).Draw(t, "prior")
		made1, tried1 := drawCount(t, 2000, "first")
		made2, tried2 := drawCount(t, 2000, "second")
		first, second := BetaFromCounts(made1, tried1, prior), BetaFromCounts(made2, tried2, prior)
		there, back := ProbBetter(first, second), ProbBetter(second, first)
		near(t, "P(A>B) + P(B>A)", there+back, 1, 1e-9)
		near(t, "mirror", ProbBetter(second.Mirror(), first.Mirror()), there, 1e-9)
		near(t, "closed form and integral", integrateExceeds(first, second, 0), there, 1e-8)
		more := BetaFromCounts(min(made2+1, tried2), tried2, prior)
		if ProbBetter(first, more) < there-1e-9 {
			t.Fatalf("one more make lowered the chance from %g to %g", there, ProbBetter(first, more))
		}
	})
}

// Twice the same data makes a lead more certain.
func TestBetter_DoubledDataIsSurer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 100).Draw(t, "n")
		low := rapid.IntRange(0, n-1).Draw(t, "low")
		high := rapid.IntRange(low+1, n).Draw(t, "high")
		once := better([2]int{low, n}, [2]int{high, n}, UniformPrior())
		twice := better([2]int{2 * low, 2 * n}, [2]int{2 * high, 2 * n}, UniformPrior())
		if twice < once-1e-12 {
			t.Fatalf("%d and %d of %d: certainty fell from %g to %g with twice the data", low, high, n, once, twice)
		}
	})
}

func TestCompare_SumsToOneAndMirrors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		made1, tried1 := drawCount(t, 500, "before")
		made2, tried2 := drawCount(t, 500, "after")
		margin := rapid.Float64Range(0, .3).Draw(t, "margin")
		before, after := BetaFromCounts(made1, tried1, JeffreysPrior()), BetaFromCounts(made2, tried2, JeffreysPrior())
		effect, back := CompareRates(before, after, margin), CompareRates(after, before, margin)
		near(t, "sum", effect.Helped+effect.NoDifference+effect.Hurt, 1, 1e-9)
		near(t, "helped turned round", back.Hurt, effect.Helped, 1e-9)
		if wider := CompareRates(before, after, margin+.05); wider.NoDifference < effect.NoDifference-1e-9 {
			t.Fatalf("a wider margin lowered no difference from %g to %g", effect.NoDifference, wider.NoDifference)
		}
	})
}

// A fine midpoint rule in the rate itself, independent of the substitution.
func TestExceeds_AgreesWithPlainIntegration(t *testing.T) {
	cases := []struct {
		first, second Beta
		margin        float64
	}{
		{Beta{3, 9}, Beta{12, 10}, .05}, {Beta{12, 10}, Beta{3, 9}, .1}, {Beta{2.5, 7.5}, Beta{7, 7}, .2},
		{Beta{40, 60}, Beta{4, 4}, .05}, {Beta{4, 4}, Beta{40, 60}, .05},
		{Beta{1.5, 9.5}, Beta{1.5, 2.5}, .3},
	}
	for _, c := range cases {
		const steps = 200_000
		sum, scale := 0.0, logBeta(c.second.A, c.second.B)
		for i := range steps {
			y := (float64(i) + .5) / steps
			sum += math.Exp((c.second.A-1)*math.Log(y)+(c.second.B-1)*math.Log1p(-y)-scale) * c.first.ProbBelow(y-c.margin)
		}
		near(t, fmt.Sprintf("%v", c), probExceeds(c.first, c.second, c.margin), sum/steps, 1e-8)
	}
}

func TestCompare_HugeCounts(t *testing.T) {
	before, after := BetaFromCounts(400_000, 1_000_000, UniformPrior()), BetaFromCounts(402_000, 1_000_000, UniformPrior())
	// Normal approximation by hand: difference 0.002, sd sqrt(.24e-6 + .240396e-6).
	want := normalCDF(.002 / math.Sqrt((.4*.6+.402*.598)/1e6))
	near(t, "million against million", ProbBetter(before, after), want, 1e-6)
	few := BetaFromCounts(1, 2, UniformPrior())
	near(t, "two against a million", ProbBetter(before, few), few.ProbAbove(.4), 1e-5)
	if effect := CompareRates(before, after, .05); effect.NoDifference < 1-1e-9 {
		t.Errorf("0.400 and 0.402 of a million each within 0.05: %+v", effect)
	}
}

func BenchmarkBetter_Uniform(b *testing.B) {
	first, second := BetaFromCounts(8, 20, UniformPrior()), BetaFromCounts(12, 20, UniformPrior())
	for b.Loop() {
		ProbBetter(first, second)
	}
}

func BenchmarkCompare_Margin(b *testing.B) {
	first, second := BetaFromCounts(8, 20, UniformPrior()), BetaFromCounts(12, 20, UniformPrior())
	for b.Loop() {
		CompareRates(first, second, .05)
	}
}

func TestExceeds_FarApart(t *testing.T) {
	low, high := BetaFromCounts(0, 590, UniformPrior()), BetaFromCounts(590, 590, UniformPrior())
	near(t, "none of 590, then all", ProbBetter(low, high), 1, 1e-9)
	near(t, "all of 590, then none", ProbBetter(high, low), 0, 1e-9)
	near(t, "by more than everything", probExceeds(low, high, 1), 0, 0)
	near(t, "by more than half", probExceeds(low, high, .5), 1, 1e-9)
}
