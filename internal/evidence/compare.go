package evidence

import (
	"math"

	"breakwright/internal/memo"
)

// RateEffect says what a change did to a rate, as three probabilities that sum to 1.
type RateEffect struct {
	// Helped: the rate rose by more than the margin.
	Helped float64
	// NoDifference: the rate moved by less than the margin, either way.
	NoDifference float64
	// Hurt: the rate fell by more than the margin.
	Hurt float64
}

// CompareRates returns what a change did, given the beliefs before and after it. The
// margin is the smallest difference of rates worth talking about (a region of
// practical equivalence, Kruschke 2018), such as 0.05. A margin that is negative
// counts as 0, and then NoDifference is 0.
func CompareRates(before, after Beta, margin float64) RateEffect {
	return comparisons.FindOrCompute(ratesCompared{before, after, margin}, func() RateEffect {
		return compareRates(before, after, margin)
	})
}

// ratesCompared is all that a RateEffect depends on.
type ratesCompared struct {
	before, after Beta
	margin        float64
}

// comparisons are kept, for the counts of ten breaks are few and come again.
var comparisons = memo.New[ratesCompared, RateEffect](1, mostKept)

// mostKept is how many answers of a kind are kept: less than a megabyte of each.
const mostKept = 5_000

func compareRates(before, after Beta, margin float64) RateEffect {
	margin = clampBetween(margin, 0, 1)
	helped := probExceeds(before, after, margin)
	hurt := probExceeds(after, before, margin)
	if margin == 0 {
		hurt = 1 - helped
	}
	return RateEffect{
		Helped:       helped,
		NoDifference: max(0, 1-helped-hurt),
		Hurt:         hurt,
	}
}

// ProbBetter returns the probability that the second rate is above the first. With
// whole-number parameters (the uniform prior) it is the exact sum of Miller
// (2015), "Formulas for Bayesian A/B testing"; otherwise it is integrated.
// Better(x, x) is one half: no evidence either way.
func ProbBetter(first, second Beta) float64 {
	return probExceeds(first, second, 0)
}

// probExceeds returns P(upper > lower + margin) for a margin of 0 or more.
func probExceeds(lower, upper Beta, margin float64) float64 {
	lower, upper = lower.properOrUniform(), upper.properOrUniform()
	if lower == upper && margin == 0 {
		return 0.5
	}
	if margin == 0 && lower.isSummable() && upper.isSummable() {
		if p, ok := millerSum(lower, upper); ok {
			return p
		}
	}
	return integrateExceeds(lower, upper, margin)
}

// isSummable reports whether both parameters are whole and small enough that the
// exact sum is quicker than an integral.
func (b Beta) isSummable() bool {
	const most = 600
	return b.A == math.Trunc(b.A) && b.B == math.Trunc(b.B) && b.A <= most && b.B <= most
}

// millerSum returns P(upper > lower) by formula R of Miller (2015), each term
// from the one before it. It gives up (false) when the first term is too small
// to be held, which happens only when the beliefs are far apart.
func millerSum(lower, upper Beta) (float64, bool) {
	missed := lower.B + upper.B
	log := logBeta(lower.A, missed) - logBeta(lower.A, lower.B)
	if log < -650 {
		return 0, false
	}
	term, sum := math.Exp(log), 0.0
	for i := 0.0; i < upper.A; i++ {
		sum += term
		term *= (lower.A + i) * (upper.B + i) / ((lower.A + i + missed) * (1 + i))
	}
	return min(sum, 1), true
}

// integrateExceeds returns P(upper > lower + margin) by Gauss-Legendre over the
// density of upper. With y = margin + (1-margin) sin² s the square roots at the
// ends, which Jeffreys priors bring, become smooth.
func integrateExceeds(lower, upper Beta, margin float64) float64 {
	// The sharper of the two is the one to integrate over, because the nodes
	// follow its peak. Misses for makes turns the question round:
	// upper > lower + margin exactly when 1-lower > 1-upper + margin.
	if lower.A+lower.B > upper.A+upper.B {
		lower, upper = upper.Mirror(), lower.Mirror()
	}
	if margin >= 1 {
		return 0
	}
	from, to := upper.bulkRange()
	if to <= margin {
		return 0
	}
	angle := func(y float64) float64 {
		return math.Asin(math.Sqrt(clampBetween((y-margin)/(1-margin), 0, 1)))
	}
	start, end := angle(max(from, margin)), angle(to)
	scale := logBeta(upper.A, upper.B)
	sum := 0.0
	for _, node := range nodes64 {
		s := start + (end-start)*node.At
		sin, cos := math.Sincos(s)
		x := (1 - margin) * sin * sin
		y, rest := margin+x, (1-margin)*cos*cos
		density := math.Exp((upper.A-1)*math.Log(y) + (upper.B-1)*math.Log(rest) - scale)
		sum += node.Weight * density * 2 * (1 - margin) * sin * cos * lower.ProbBelow(x)
	}
	return clampBetween(sum*(end-start), 0, 1)
}

// bulkRange returns rates between which all but a negligible part of the belief
// lies. On the scale asin(sqrt(rate)) a beta is never much wider than
// 1/sqrt(A+B), and fourteen half-widths leave out less than 1e-15.
func (b Beta) bulkRange() (from, to float64) {
	centre := math.Asin(math.Sqrt(b.Mean()))
	half := 7 / math.Sqrt(b.A+b.B)
	low, high := max(0, centre-half), min(math.Pi/2, centre+half)
	return math.Pow(math.Sin(low), 2), math.Pow(math.Sin(high), 2)
}
