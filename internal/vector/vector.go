package vector

// Lanes is how many numbers go at once; what is left of a length that is no multiple of it
// goes one after the other.
const Lanes = 8

// Pad returns the least multiple of Lanes that is not below n.
func Pad(n int) int { return (n + Lanes - 1) / Lanes * Lanes }

// AddProducts adds to the sums so many rows, each times its factor, one row after the
// other. The rows begin stride apart, the factors step apart.
func AddProducts(sums, rows []float32, stride int, factors []float32, step, count int) {
	if count == 0 || len(sums) == 0 {
		return
	}
	// The last that is read, so that nothing beyond it is.
	_, _ = rows[(count-1)*stride+len(sums)-1], factors[(count-1)*step]
	done := addProductsInEights(sums, rows, stride, factors, step, count)
	addProductsOneByOne(sums[done:], rows[done:], stride, factors, step, count)
}

// AddProduct adds to the sums a row times a factor.
func AddProduct(sums, row []float32, factor float32) {
	AddProducts(sums, row, 0, []float32{factor}, 0, 1)
}

// mostExponent is the farthest from 0 of what Exp takes; it takes it for what is farther, so
// that no sum of exponentials overflows.
const mostExponent = 60

// Exp replaces each by its exponential, with a relative error below 1e-4.
func Exp(v []float32) { expOneByOne(v[expInEights(v):]) }

// Log replaces each, which is more than 0, by its natural logarithm, exact to 2e-7 of it or of
// 1, whichever is more.
func Log(v []float32) { logOneByOne(v[logInEights(v):]) }

// flat is beyond which a hyperbolic tangent is 1.
const flat = 9

// Tanh replaces each by its hyperbolic tangent, exact to 1e-4.
func Tanh(v []float32) { tanhOneByOne(v[tanhInEights(v):]) }

// Divide divides each by its divisor.
func Divide(v, by []float32) {
	by = by[:len(v)]
	done := divideInEights(v, by)
	for i, d := range by[done:] {
		v[done+i] /= d
	}
}
