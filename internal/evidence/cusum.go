package evidence

import "math"

// CUSUM adds up departures from a target until they cannot be chance: the
// cumulative sum chart of Page (1954) in its tabular form (NIST/SEMATECH e-Handbook
// 6.3.2.3). All three numbers are in the unit of the values.
type CUSUM struct {
	// Target is where values should lie.
	Target float64
	// K is the slack taken off each departure, usually half the shift worth
	// finding.
	K float64
	// H is the sum above which an alarm is raised.
	H float64
}

// Sums are the two running sums, both 0 or more. The zero value is the start.
type Sums struct {
	// High adds up values above the target, Low values below.
	High, Low float64
}

// Next returns the sums after one more value.
func (c CUSUM) Next(s Sums, value float64) Sums {
	return Sums{
		High: max(0, s.High+value-c.Target-c.K),
		Low:  max(0, s.Low+c.Target-c.K-value),
	}
}

// Run returns the sums after each value.
func (c CUSUM) Run(values []float64) []Sums {
	run, sums := make([]Sums, len(values)), Sums{}
	for i, value := range values {
		sums = c.Next(sums, value)
		run[i] = sums
	}
	return run
}

// Signal is an alarm of a chart.
type Signal struct {
	// At is the index of the value that raised the alarm.
	At int
	// Since is the index of the first value after the sum last was zero: the
	// change is placed there.
	Since int
	// Up is true when values are too high, false when too low.
	Up bool
}

// FirstSignal returns the first alarm among the values, and false if there is
// none.
func (c CUSUM) FirstSignal(values []float64) (Signal, bool) {
	var sums Sums
	sinceHigh, sinceLow := 0, 0
	for i, value := range values {
		sums = c.Next(sums, value)
		switch {
		case sums.High > c.H:
			return Signal{At: i, Since: sinceHigh, Up: true}, true
		case sums.Low > c.H:
			return Signal{At: i, Since: sinceLow}, true
		}
		if sums.High == 0 {
			sinceHigh = i + 1
		}
		if sums.Low == 0 {
			sinceLow = i + 1
		}
	}
	return Signal{}, false
}

// RunLength returns how many values, on average, the chart needs for an alarm when
// they are normal and off the target by a mean shift: long is good for a shift of
// nought, short for any other. K, H and the shift are used in units of sigma, the
// standard deviation of one value. The two sides are joined by the rule 1/both =
// 1/high + 1/low. Without spread (a sigma of 0 or less) it is one value or never; a
// negative H counts as 0; a million million values or more count as never.
func (c CUSUM) RunLength(shift, sigma float64) float64 {
	high, low := c.RunLengthHigh(shift, sigma), c.RunLengthHigh(-shift, sigma)
	return 1 / (1/high + 1/low)
}

// RunLengthHigh is RunLength for the upper side alone. It solves the integral
// equation of Page (1954),
//
//	L(u) = 1 + L(0) Φ(k-u) + ∫₀ʰ L(y) φ(y+k-u) dy
//
// on Gauss-Legendre nodes.
func (c CUSUM) RunLengthHigh(shift, sigma float64) float64 {
	if !(sigma > 0) {
		if shift > c.K {
			return 1
		}
		return math.Inf(1)
	}
	k, h := (c.K-shift)/sigma, max(0, c.H/sigma)
	n := len(nodes64)
	// Unknowns are L at 0 and at every node; the first row is u = 0.
	system := newLinear(n + 1)
	for row := range n + 1 {
		u := 0.0
		if row > 0 {
			u = h * nodes64[row-1].At
		}
		system.right[row] = 1
		system.at(row)[row]++
		system.at(row)[0] -= normalCDF(k - u)
		for j, node := range nodes64 {
			system.at(row)[j+1] -= h * node.Weight * normalPDF(h*node.At+k-u)
		}
	}
	return system.firstLength()
}
