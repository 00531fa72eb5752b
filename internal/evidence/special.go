package evidence

import "math"

// isPossibleCount reports whether made of tried is a count that can happen.
func isPossibleCount(made, tried int) bool {
	return made >= 0 && made <= tried
}

// clampBetween pulls x into low..high; a NaN becomes low.
func clampBetween(x, low, high float64) float64 {
	if !(x > low) {
		return low
	}
	return min(x, high)
}

// normalQuantile returns the z below which a standard normal falls with
// probability p, for 0 < p < 1.
func normalQuantile(p float64) float64 {
	return -math.Sqrt2 * math.Erfcinv(2*p)
}

// normalCDF returns the probability that a standard normal falls below z.
func normalCDF(z float64) float64 {
	return math.Erfc(-z/math.Sqrt2) / 2
}

// normalPDF returns the standard normal density at z.
func normalPDF(z float64) float64 {
	return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi)
}

// logGamma returns ln Γ(x) for x > 0.
func logGamma(x float64) float64 {
	value, _ := math.Lgamma(x)
	return value
}

// logChoose returns the logarithm of n over k, for 0 <= k <= n.
func logChoose(n, k int) float64 {
	return logGamma(float64(n)+1) - logGamma(float64(k)+1) - logGamma(float64(n-k)+1)
}

// logBeta returns ln B(a, b) for positive a and b.
func logBeta(a, b float64) float64 {
	return logGamma(a) + logGamma(b) - logGamma(a+b)
}
