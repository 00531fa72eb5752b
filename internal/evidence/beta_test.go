package evidence

import (
	"fmt"
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// P(rate < x) after whole counts is a binomial tail: here in exact rational
// arithmetic against the incomplete beta function.
func TestBeta_ProbBelowIsABinomialTail(t *testing.T) {
	for _, tried := range []int{0, 1, 10, 40, 150} {
		for made := 0; made <= tried; made += 1 + tried/7 {
			for _, percent := range []int64{1, 20, 35, 50, 77, 99} {
				got := BetaFromCounts(made, tried, UniformPrior()).ProbBelow(float64(percent) / 100)
				what := fmt.Sprintf("P(rate < %d %%) after %d/%d", percent, made, tried)
				near(t, what, got, exactTail(int64(made+1), int64(tried+1), percent), 1e-13)
			}
		}
	}
}

// exactTail is P(at least made of tried) at a rate in whole per cent.
func exactTail(made, tried, percent int64) float64 {
	sum := new(big.Int)
	for k := made; k <= tried; k++ {
		term := new(big.Int).Binomial(tried, k)
		term.Mul(term, new(big.Int).Exp(big.NewInt(percent), big.NewInt(k), nil))
		term.Mul(term, new(big.Int).Exp(big.NewInt(100-percent), big.NewInt(tried-k), nil))
		sum.Add(sum, term)
	}
	value, _ := new(big.Rat).SetFrac(sum, new(big.Int).Exp(big.NewInt(100), big.NewInt(tried), nil)).Float64()
	return value
}

func TestBeta_QuantileUndoesProbBelow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		made, tried := drawCount(t, 2000, "count")
		p := rapid.Float64Range(.001, .999).Draw(t, "p")
		b := BetaFromCounts(made, tried, rapid.SampledFrom([]Beta{UniformPrior(), JeffreysPrior()}).Draw(t, "prior"))
		near(t, "there and back", b.ProbBelow(b.Quantile(p)), p, 1e-9)
		near(t, "mirror", b.Mirror().Quantile(1-p), 1-b.Quantile(p), 1e-9)
		near(t, "above and below", b.ProbAbove(.4)+b.ProbBelow(.4), 1, 1e-12)
	})
}

func TestBeta_MeanAndSD(t *testing.T) {
	// Beta(4, 8): mean 1/3, variance 32/(144·13), by the textbook formula.
	b := BetaFromCounts(3, 10, UniformPrior())
	near(t, "mean", b.Mean(), 1.0/3, 1e-15)
	near(t, "sd", b.SD(), math.Sqrt(32.0/(144*13)), 1e-15)
}

// The zero value and nonsense are "nothing known".
func TestBeta_ImproperIsUniform(t *testing.T) {
	for _, b := range []Beta{{}, {-1, 4}, {0, 3}, {math.NaN(), 1}, {math.Inf(1), 1}} {
		near(t, fmt.Sprintf("mean of %v", b), b.Mean(), .5, 0)
		near(t, fmt.Sprintf("P below of %v", b), b.ProbBelow(.3), .3, 1e-15)
		if got := b.Observe(3, 10); got != (Beta{4, 8}) {
			t.Errorf("%v after 3/10 = %v, want Beta(4, 8)", b, got)
		}
	}
	if got := BetaFromCounts(11, 10, UniformPrior()); got != UniformPrior() {
		t.Errorf("an impossible count moved the prior to %v", got)
	}
}

func TestBeta_NeverNaN(t *testing.T) {
	for tried := 0; tried <= 2000; tried = next(tried) {
		for made := 0; made <= tried; made = next(made) {
			for _, prior := range []Beta{UniformPrior(), JeffreysPrior()} {
				b := BetaFromCounts(made, tried, prior)
				for _, v := range []float64{b.Mean(), b.SD(), b.Quantile(.05), b.Quantile(.95), b.ProbAbove(.45), b.ProbBelow(1e-9)} {
					if !(v >= 0 && v <= 1) {
						t.Fatalf("%v (%d/%d) gives %g", b, made, tried, v)
					}
				}
			}
		}
	}
}

// next walks every small number and then ever longer steps, ending at 2000.
func next(n int) int {
	if n < 40 || n == 2000 {
		return n + 1
	}
	return min(2000, n+n/9)
}

// Computed independently by integrating the density in 40-digit arithmetic.
func TestBeta_ProbBelowAtAMillion(t *testing.T) {
	cases := []struct {
		belief     Beta
		line, want float64
	}{
		{Beta{300_000, 700_000}, .3, .50011607514}, {Beta{300_000, 700_000}, .30091651468073394, .97720278833},
		{Beta{300_000, 700_000}, .29862522797889907, .00133958090}, {Beta{500_000, 500_000}, .4995000002499998, .15865537491},
	}
	for _, c := range cases {
		near(t, fmt.Sprintf("%v below %g", c.belief, c.line), c.belief.ProbBelow(c.line), c.want, 2e-9)
	}
}

// From a million on the normal approximation takes over; at the seam both must
// tell the same.
func TestBeta_VastCounts(t *testing.T) {
	exact, approximate := Beta{A: 350_000, B: 649_999}, Beta{A: 350_000, B: 650_001}
	for _, z := range []float64{-3, -1, 0, 1, 3} {
		line := .35 + z*math.Sqrt(.35*.65/1e6)
		near(t, fmt.Sprintf("at z = %g", z), approximate.ProbBelow(line), exact.ProbBelow(line), 2e-3*normalPDF(z)+1e-5)
		near(t, "there and back", approximate.ProbBelow(approximate.Quantile(normalCDF(z))), normalCDF(z), 1e-5)
	}
	for _, b := range []Beta{{1e9, 1}, {.5, 1e9}, {1e12, 1e12}, {1e300, 1e300}} {
		for _, v := range []float64{b.Mean(), b.SD(), b.Quantile(.05), b.ProbAbove(.45), ProbBetter(b, UniformPrior())} {
			if !(v >= 0 && v <= 1) {
				t.Errorf("%v gives %g", b, v)
			}
		}
	}
}

func TestBeta_QuantileEnds(t *testing.T) {
	b := BetaFromCounts(3, 10, UniformPrior())
	near(t, "at nought", b.Quantile(0), 0, 0)
	near(t, "at one", b.Quantile(1), 1, 0)
	near(t, "at no number", b.Quantile(math.NaN()), 0, 0)
	if got := b.CentralInterval(1.5); got != wholeRange {
		t.Errorf("a level of 1.5 gives %v, want everything", got)
	}
	// The middle half of a flat belief, by hand.
	same(t, "flat", UniformPrior().CentralInterval(.5), Interval{.25, .75}, 1e-12)
	near(t, "its width", UniformPrior().CentralInterval(.5).Width(), .5, 1e-12)
}
