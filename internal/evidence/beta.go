package evidence

import (
	"math"

	"gonum.org/v1/gonum/mathext"

	"breakwright/internal/memo"
)

// Beta is what is believed about a rate: a beta distribution with A-1 makes and
// B-1 misses more than the flat belief. The zero value, and any Beta whose
// parameters are not positive and finite, is read as Uniform: nothing known.
type Beta struct {
	A, B float64
}

// UniformPrior returns the flat prior Beta(1, 1), under which every rate is as likely
// as every other.
func UniformPrior() Beta { return Beta{A: 1, B: 1} }

// JeffreysPrior returns Beta(1/2, 1/2), the reference prior of a proportion.
func JeffreysPrior() Beta { return Beta{A: 0.5, B: 0.5} }

// BetaFromCounts returns the belief after made of tried, starting from prior. An
// impossible count leaves the prior as it was.
func BetaFromCounts(made, tried int, prior Beta) Beta {
	return prior.Observe(made, tried)
}

// Observe returns the belief after made of tried more.
func (b Beta) Observe(made, tried int) Beta {
	b = b.properOrUniform()
	if !isPossibleCount(made, tried) {
		return b
	}
	return Beta{A: b.A + float64(made), B: b.B + float64(tried-made)}
}

// Mirror returns the belief about the opposite event: misses for makes.
func (b Beta) Mirror() Beta {
	b = b.properOrUniform()
	return Beta{A: b.B, B: b.A}
}

// Mean returns the expected rate, which is also the chance that the next break
// is a make.
func (b Beta) Mean() float64 {
	b = b.properOrUniform()
	return b.A / (b.A + b.B)
}

// SD returns the standard deviation of the rate.
func (b Beta) SD() float64 {
	b = b.properOrUniform()
	n := b.A + b.B
	return math.Sqrt(b.A / n * (b.B / n) / (n + 1))
}

// ProbAbove returns the probability that the rate is above line.
func (b Beta) ProbAbove(line float64) float64 {
	return b.Mirror().ProbBelow(1 - line)
}

// ProbBelow returns the probability that the rate is below line, right to 1e-12
// for the counts of an evening and to 2e-9 up to a million. Beyond that the normal
// approximation with its first skewness correction (Cornish and Fisher 1938)
// takes over, whose error is then below 1e-5.
func (b Beta) ProbBelow(line float64) float64 {
	b = b.properOrUniform()
	switch {
	case !(line > 0):
		return 0
	case line >= 1:
		return 1
	case b.isNearlyNormal():
		z := (line - b.Mean()) / b.SD()
		return clampBetween(normalCDF(z)-normalPDF(z)*b.skewness()/6*(z*z-1), 0, 1)
	}
	return mathext.RegIncBeta(b.A, b.B, line)
}

// Quantile returns the rate below which the belief puts the probability p. A p
// of 0 or less returns 0, of 1 or more 1.
func (b Beta) Quantile(p float64) float64 {
	b = b.properOrUniform()
	switch {
	case !(p > 0):
		return 0
	case p >= 1:
		return 1
	case b.isNearlyNormal():
		z := normalQuantile(p)
		return clampBetween(b.Mean()+b.SD()*(z+b.skewness()/6*(z*z-1)), 0, 1)
	}
	return mathext.InvRegIncBeta(b.A, b.B, p)
}

// CentralInterval returns the equal-tailed credible interval at a level such as 0.9. A
// level outside 0..1 returns the widest.
func (b Beta) CentralInterval(level float64) Interval {
	if !(level > 0 && level < 1) {
		return wholeRange
	}
	return intervals.FindOrCompute(betaLevel{b, level}, func() Interval {
		tail := (1 - level) / 2
		return Interval{Low: b.Quantile(tail), High: b.Quantile(1 - tail)}
	})
}

// betaLevel is all that an interval depends on.
type betaLevel struct {
	belief Beta
	level  float64
}

// intervals are kept like comparisons.
var intervals = memo.New[betaLevel, Interval](1, mostKept)

// properOrUniform returns b, or Uniform where b is no distribution.
func (b Beta) properOrUniform() Beta {
	if b.A > 0 && b.B > 0 && !math.IsInf(b.A, 1) && !math.IsInf(b.B, 1) {
		return b
	}
	return UniformPrior()
}

// isNearlyNormal reports whether both counts are so many that the continued fraction
// behind the incomplete beta function no longer settles.
func (b Beta) isNearlyNormal() bool {
	const settles = 1e6
	return b.A+b.B > settles && min(b.A, b.B) > 1e3
}

// skewness returns the third standardised moment.
func (b Beta) skewness() float64 {
	n := b.A + b.B
	return 2 * (b.B - b.A) / (n + 2) * math.Sqrt((n+1)/b.A/b.B)
}
