package leave

import (
	"math"

	"breakwright/internal/table"
)

// Most angles here are small: a mouth seen from afar, a ball's width over a way. For
// those the first terms of the series are as exact as the library, to 1e-14, and
// several times as fast.
const small = 0.15

// arcsine is math.Asin.
func arcsine(x float64) float64 {
	if !(x > -small && x < small) {
		return math.Asin(x)
	}
	z := x * x
	return x * (1 + z*(1.0/6+z*(3.0/40+z*(15.0/336+z*(105.0/3456+z*(945.0/42240+z*10395.0/599040))))))
}

// arctangent is math.Atan2 for a positive x.
func arctangent(y, x float64) float64 {
	r := y / x
	if !(r > -small && r < small) {
		return math.Atan2(y, x)
	}
	z := r * r
	return r * (1 - z*(1.0/3-z*(1.0/5-z*(1.0/7-z*(1.0/9-z*(1.0/11-z*(1.0/13-z*(1.0/15))))))))
}

// angleTo is Vector.AngleTo.
func angleTo(v, w table.Vector) float64 {
	if along := v.Dot(w); along > 0 {
		return arctangent(v.Cross(w), along)
	}
	return v.AngleTo(w)
}

// lengthOf is Vector.Length for ways on a table, which neither overflow nor vanish.
func lengthOf(v table.Vector) float64 { return math.Sqrt(v.Dot(v)) }
