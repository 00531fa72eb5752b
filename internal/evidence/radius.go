package evidence

import "math"

// SigmasHolding returns how many sigmas an ellipse must reach to hold the share of
// a normal cloud in the plane: the root of the chi-square quantile with two
// degrees of freedom. A share of 1 or more is infinite, of 0 or less is 0.
func SigmasHolding(share float64) float64 {
	return math.Sqrt(-2 * math.Log1p(-between(share, 0, 1)))
}

// ShareWithin returns the share of a normal cloud in the plane that lies within
// the ellipse of so many sigmas.
func ShareWithin(sigmas float64) float64 {
	return -math.Expm1(-sigmas * sigmas / 2)
}

// CircleHolding returns the radius of the circle, around the centre of a normal
// cloud with these standard deviations along its axes, that holds the share. For
// a share of one half this is the circular error probable.
func CircleHolding(share, sigma1, sigma2 float64) float64 {
	wide, thin := max(sigma1, sigma2), min(sigma1, sigma2)
	if !(wide > 0) || !(share > 0) {
		return 0
	}
	if thin <= 1e-9*wide {
		return wide * normalQuantile((1+share)/2)
	}
	low, high := thin*SigmasHolding(share), wide*SigmasHolding(share)
	for range 60 {
		middle := (low + high) / 2
		if shareInCircle(middle, wide, thin) < share {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// shareInCircle integrates over the wide axis, x = radius·sin t, the chance of
// the thin coordinate staying inside.
func shareInCircle(radius, wide, thin float64) float64 {
	sum := 0.0
	for _, node := range nodes64 {
		sin, cos := math.Sincos(node.At * math.Pi / 2)
		inside := math.Erf(radius * cos / thin / math.Sqrt2)
		sum += node.Weight * normalPDF(radius*sin/wide) * cos * inside
	}
	return sum * math.Pi * radius / wide
}
