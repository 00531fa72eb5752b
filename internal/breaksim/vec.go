package breaksim

import "math"

// vec is a vector in space: x to the right and y to the foot as in package
// table, z up.
type vec struct{ x, y, z float64 }

var up = vec{z: 1}

func (a vec) add(b vec) vec                   { return vec{a.x + b.x, a.y + b.y, a.z + b.z} }
func (a vec) sub(b vec) vec                   { return vec{a.x - b.x, a.y - b.y, a.z - b.z} }
func (a vec) scaledBy(k float64) vec          { return vec{a.x * k, a.y * k, a.z * k} }
func (a vec) plusScaled(k float64, b vec) vec { return vec{a.x + k*b.x, a.y + k*b.y, a.z + k*b.z} }
func (a vec) dot(b vec) float64               { return a.x*b.x + a.y*b.y + a.z*b.z }
func (a vec) norm() float64                   { return math.Sqrt(a.x*a.x + a.y*a.y + a.z*a.z) }
func (a vec) flatNorm() float64               { return math.Sqrt(a.x*a.x + a.y*a.y) }

func (a vec) cross(b vec) vec {
	return vec{a.y*b.z - a.z*b.y, a.z*b.x - a.x*b.z, a.x*b.y - a.y*b.x}
}

// isFinite is false when any part is NaN or infinite.
func (a vec) isFinite() bool {
	sum := a.x + a.y + a.z
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}
