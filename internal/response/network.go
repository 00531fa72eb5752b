package response

import (
	"math"
)

// Hidden is the width of each of the two hidden layers.
const Hidden = 40

// network is two hidden layers of tanh and a softmax for each fact.
type network struct {
	w1 [Hidden][InputCount + 1]float32 // the last column is the bias
	w2 [Hidden][Hidden + 1]float32
	w3 [][Hidden + 1]float32 // outputs rows
}

// logits runs the network.
func (n *network) logits(x *Inputs, out []float32) {
	var a, b [Hidden]float32
	for i := range n.w1 {
		w := &n.w1[i]
		sum := w[InputCount]
		for j := range x {
			sum += w[j] * x[j]
		}
		a[i] = tanh32(sum)
	}
	for i := range n.w2 {
		w := &n.w2[i]
		b[i] = tanh32(dotHidden(w, &a))
	}
	for i := range n.w3 {
		out[i] = dotHidden(&n.w3[i], &b)
	}
}

// dotHidden is in four running sums, which the processor adds side by side.
func dotHidden(w *[Hidden + 1]float32, v *[Hidden]float32) float32 {
	var s0, s1, s2, s3 float32
	for j := 0; j < Hidden; j += 4 {
		s0 += w[j] * v[j]
		s1 += w[j+1] * v[j+1]
		s2 += w[j+2] * v[j+2]
		s3 += w[j+3] * v[j+3]
	}
	return w[Hidden] + (s0 + s1) + (s2 + s3)
}

// tanh32 is exact to 1e-7, by the exponential.
func tanh32(x float32) float32 {
	switch {
	case x > 9:
		return 1
	case x < -9:
		return -1
	}
	e := float32(math.Exp(float64(2 * x)))
	return (e - 1) / (e + 1)
}
