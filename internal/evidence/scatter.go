package evidence

import (
	"math"
	"slices"
)

// Point is a place in the plane. Both coordinates share one unit, the caller's.
type Point struct {
	X, Y float64
}

// PointScatter sums up a cloud of points by its centre and covariance. The zero value
// is a cloud of no points.
type PointScatter struct {
	// N is the number of points counted.
	N int
	// Mean is the centre.
	Mean Point
	// XX, XY and YY are the covariance with divisor N-1, in the square of the
	// points' unit; 0 for fewer than two points.
	XX, XY, YY float64
}

// ScatterOf sums up points. A point that is not finite is left out.
func ScatterOf(points []Point) PointScatter {
	var s PointScatter
	for _, p := range points {
		if math.IsNaN(p.X-p.X) || math.IsNaN(p.Y-p.Y) {
			continue
		}
		// Welford's update keeps digits when the cloud is far from the origin.
		s.N++
		dx, dy := p.X-s.Mean.X, p.Y-s.Mean.Y
		s.Mean.X += dx / float64(s.N)
		s.Mean.Y += dy / float64(s.N)
		s.XX += dx * (p.X - s.Mean.X)
		s.XY += dx * (p.Y - s.Mean.Y)
		s.YY += dy * (p.Y - s.Mean.Y)
	}
	if s.N > 1 {
		free := float64(s.N - 1)
		s.XX, s.XY, s.YY = s.XX/free, s.XY/free, s.YY/free
	}
	return s
}

// Ellipse is an ellipse in the plane. Major and Minor are half-axes in the
// points' unit. AngleRadians turns the X axis onto the major axis, more than
// -π/2 and at most π/2; 0 for a circle.
type Ellipse struct {
	Centre       Point
	Major, Minor float64
	AngleRadians float64
}

// PrincipalAxes returns the one-sigma ellipse: its half-axes are the standard deviations
// along the principal axes of the cloud.
func (s PointScatter) PrincipalAxes() Ellipse {
	middle, half := (s.XX+s.YY)/2, math.Hypot((s.XX-s.YY)/2, s.XY)
	angle := math.Atan2(2*s.XY, s.XX-s.YY) / 2
	if angle <= -math.Pi/2 {
		angle += math.Pi
	}
	return Ellipse{
		Centre:       s.Mean,
		Major:        math.Sqrt(middle + half),
		Minor:        math.Sqrt(max(0, middle-half)),
		AngleRadians: angle,
	}
}

// EllipseHolding returns the ellipse that holds the share (0..1) of a normal cloud with
// this centre and covariance, by the chi-square distribution with two degrees
// of freedom.
func (s PointScatter) EllipseHolding(share float64) Ellipse {
	e := s.PrincipalAxes()
	sigmas := SigmasHolding(share)
	e.Major *= sigmas
	e.Minor *= sigmas
	return e
}

// SigmasHolding returns how many sigmas an ellipse must reach to hold the share of
// a normal cloud in the plane: the root of the chi-square quantile with two
// degrees of freedom. A share of 1 or more is infinite, of 0 or less is 0.
func SigmasHolding(share float64) float64 {
	return math.Sqrt(-2 * math.Log1p(-clampBetween(share, 0, 1)))
}

// MedianRadius returns the distance from centre within which half of the points
// lie (the mean of the two middle ones when even), and 0 for no points.
func MedianRadius(points []Point, centre Point) float64 {
	if len(points) == 0 {
		return 0
	}
	radii := make([]float64, len(points))
	for i, p := range points {
		radii[i] = math.Hypot(p.X-centre.X, p.Y-centre.Y)
	}
	slices.Sort(radii)
	half := len(radii) / 2
	if len(radii)%2 == 1 {
		return radii[half]
	}
	return (radii[half-1] + radii[half]) / 2
}
