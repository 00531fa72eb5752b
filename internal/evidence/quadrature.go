package evidence

import "math"

// quadratureNode is one point of a quadrature rule on 0..1.
type quadratureNode struct {
	At, Weight float64
}

// nodes64 is the Gauss-Legendre rule behind every integral of this package.
var nodes64 = gaussLegendre(64)

// gaussLegendre returns the n-point Gauss-Legendre rule on 0..1, exact for
// polynomials of degree 2n-1. The roots are found by Newton's method from the
// usual cosine guess (Abramowitz and Stegun 25.4.30 for the weights).
func gaussLegendre(n int) []quadratureNode {
	rule := make([]quadratureNode, n)
	for i := range rule {
		x := -math.Cos(math.Pi * (float64(i) + 0.75) / (float64(n) + 0.5))
		slope := 0.0
		for range 8 {
			var value float64
			value, slope = legendreValue(n, x)
			x -= value / slope
		}
		rule[i] = quadratureNode{At: (1 + x) / 2, Weight: 1 / ((1 - x*x) * slope * slope)}
	}
	return rule
}

// legendreValue returns the Legendre polynomial of degree n and its slope at x.
func legendreValue(n int, x float64) (value, slope float64) {
	before, value := 0.0, 1.0
	for k := 1; k <= n; k++ {
		j := float64(k)
		before, value = value, ((2*j-1)*x*value-(j-1)*before)/j
	}
	return value, float64(n) * (x*value - before) / (x*x - 1)
}
