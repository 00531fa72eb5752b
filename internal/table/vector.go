package table

import "math"

// Degrees is an angle.
type Degrees float64

// DegreesFromRadians is the inverse of Degrees.Radians.
func DegreesFromRadians(radians float64) Degrees { return Degrees(radians * 180 / math.Pi) }

// Radians returns the angle in radians.
func (d Degrees) Radians() float64 { return float64(d) * math.Pi / 180 }

// Vector is a way from one place to another, in inches. Its operations treat
// left and right alike to the last bit: the result for mirrored vectors is the
// mirrored result.
type Vector struct{ X, Y float64 }

// VectorTo returns the way from p to q.
func (p Place) VectorTo(q Place) Vector { return Vector{float64(q.X - p.X), float64(q.Y - p.Y)} }

// MovedBy returns the place that lies a way from p.
func (p Place) MovedBy(v Vector) Place { return Place{p.X + Inches(v.X), p.Y + Inches(v.Y)} }

// ScaledBy returns the way made so many times as long.
func (v Vector) ScaledBy(by float64) Vector { return Vector{by * v.X, by * v.Y} }

// Length of the way in inches.
func (v Vector) Length() float64 { return math.Hypot(v.X, v.Y) }

// UnitVector returns the direction as a vector of length 1; no way has no direction,
// and stays what it is.
func (v Vector) UnitVector() Vector {
	if l := v.Length(); l > 0 {
		return v.ScaledBy(1 / l)
	}
	return v
}

// Dot is the length of v times that of the part of w that goes along it.
func (v Vector) Dot(w Vector) float64 { return v.X*w.X + v.Y*w.Y }

// Cross is positive when w points to the left of v, seen with the foot rail up.
func (v Vector) Cross(w Vector) float64 { return v.X*w.Y - v.Y*w.X }

// TurnedBy returns the vector turned by so many radians, positive to the left.
func (v Vector) TurnedBy(radians float64) Vector {
	sin, cos := math.Sincos(radians)
	return Vector{v.X*cos - v.Y*sin, v.X*sin + v.Y*cos}
}

// AngleTo is the angle by which v must turn to point along w, in radians,
// positive to the left, within half a turn.
func (v Vector) AngleTo(w Vector) float64 { return math.Atan2(v.Cross(w), v.Dot(w)) }

// WithoutPartAlong returns what is left of v when its part along a unit vector is taken out.
func (v Vector) WithoutPartAlong(unit Vector) Vector {
	along := v.Dot(unit)
	return Vector{v.X - along*unit.X, v.Y - along*unit.Y}
}
