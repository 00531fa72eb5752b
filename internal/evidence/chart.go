package evidence

import "math"

// Limits are the lines of a control chart. They are not clipped: a lower limit
// below 0 says that no set can ever be too bad.
type Limits struct {
	Low, High float64
}

// Outside reports whether a value lies beyond either line.
func (l Limits) Outside(value float64) bool {
	return value < l.Low || value > l.High
}

// ProportionLimits returns the three-sigma limits of a p-chart (NIST/SEMATECH
// e-Handbook 6.3.3.2) for sets of a size around a mean rate. At a mean of .45 with
// sets of ten they are -.02 and .92: only ten of ten can signal, so do not chart
// tens this way. A size below 1 has no limits.
func ProportionLimits(mean float64, size int) Limits {
	if size < 1 {
		return Limits{Low: math.Inf(-1), High: math.Inf(1)}
	}
	mean = between(mean, 0, 1)
	reach := 3 * math.Sqrt(mean*(1-mean)/float64(size))
	return Limits{Low: mean - reach, High: mean + reach}
}

// EWMA is an exponentially weighted moving average chart (Roberts 1959,
// NIST/SEMATECH e-Handbook 6.3.2.4).
type EWMA struct {
	// Target is where the average starts and the centre of the limits.
	Target float64
	// Sigma is the standard deviation of one value.
	Sigma float64
	// Lambda, above 0 and at most 1, is the weight of the newest value.
	Lambda float64
	// Width is the distance of the limits in standard deviations of the
	// average, usually 2.7 to 3.
	Width float64
}

// Next returns the average after one more value. It starts at Target.
func (e EWMA) Next(average, value float64) float64 {
	return average + e.Lambda*(value-average)
}

// Run returns the average after each value.
func (e EWMA) Run(values []float64) []float64 {
	run, average := make([]float64, len(values)), e.Target
	for i, value := range values {
		average = e.Next(average, value)
		run[i] = average
	}
	return run
}

// LimitsAfter returns the limits after so many values; they widen from the first
// value on towards LimitsInTheEnd.
func (e EWMA) LimitsAfter(values int) Limits {
	forgotten := math.Pow(1-e.Lambda, 2*float64(max(values, 0)))
	return e.limits(1 - forgotten)
}

// LimitsInTheEnd returns the limits for a long run.
func (e EWMA) LimitsInTheEnd() Limits {
	return e.limits(1)
}

func (e EWMA) limits(share float64) Limits {
	reach := e.Width * e.Sigma * math.Sqrt(e.Lambda/(2-e.Lambda)*share)
	return Limits{Low: e.Target - reach, High: e.Target + reach}
}
