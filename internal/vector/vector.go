package vector

import "fmt"

// AddProducts adds to the sums each row times its factor, one row after the other. The rows
// begin stride apart, the factors step apart.
func AddProducts(sums, rows []float32, stride int, factors []float32, step, count int) {
	width := len(sums)
	checkLength(width)
	if count < 1 {
		return
	}
	// The last of what is read, so that nothing is read beyond it.
	_, _ = rows[(count-1)*stride+width-1], factors[(count-1)*step]
	addProducts(sums, rows, stride, factors, step, count)
}

// MostExponent is the farthest from 0 of what Exp takes; it takes it for what is farther.
const MostExponent = 60

// Exp replaces each by its exponential, with a relative error below 1e-4.
func Exp(v []float32) {
	checkLength(len(v))
	exp(v)
}

// Tanh replaces each by its hyperbolic tangent, exact to 1e-4.
func Tanh(v []float32) {
	checkLength(len(v))
	tanh(v)
}

// Divide divides each by its divisor.
func Divide(v, by []float32) {
	checkLength(len(v))
	divide(v, by[:len(v)])
}

// Subtract takes from each what is to be taken.
func Subtract(v, less []float32) {
	checkLength(len(v))
	subtract(v, less[:len(v)])
}

func checkLength(n int) {
	if n == 0 || n%Lanes != 0 {
		panic(fmt.Sprintf("vector: %d numbers are no multiple of %d", n, Lanes))
	}
}
