package evidence

import "math"

// Offset tests whether the centre of a cloud lies away from a target: the
// T² of Hotelling (1931), see Johnson and Wichern, chapter 5.
type Offset struct {
	// T2 is Hotelling's statistic.
	T2 float64
	// F is the same as a variance ratio with 2 and N-2 degrees of freedom.
	F float64
	// P is the chance of a centre at least this far off, were the cloud truly
	// centred on the target.
	P float64
}

// OffsetFrom returns the test of the centre against target. With fewer than three
// points, or all of them on one line, nothing can be said: P is 1.
func (s Scatter) OffsetFrom(target Point) Offset {
	det := s.XX*s.YY - s.XY*s.XY
	if s.N < 3 || !(det > 1e-12*s.XX*s.YY) {
		return Offset{P: 1}
	}
	n := float64(s.N)
	dx, dy := s.Mean.X-target.X, s.Mean.Y-target.Y
	t2 := n * (dx*dx*s.YY - 2*dx*dy*s.XY + dy*dy*s.XX) / det
	f := t2 * (n - 2) / (2 * (n - 1))
	return Offset{T2: t2, F: f, P: math.Pow(1+2*f/(n-2), -(n-2)/2)}
}

// CriticalT2 returns the T² that a cloud of n points in truth centred exceeds
// with probability alpha. It is infinite for fewer than three points.
func CriticalT2(n int, alpha float64) float64 {
	if n < 3 || !(alpha > 0) {
		return math.Inf(1)
	}
	// With two degrees of freedom above, F has a closed form.
	return float64(n-1) * (math.Pow(min(alpha, 1), -2/float64(n-2)) - 1)
}
