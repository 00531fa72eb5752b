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

// tanh32 is exact to 1e-6, by the exponential.
func tanh32(x float32) float32 {
	switch {
	case x > 9:
		return 1
	case x < -9:
		return -1
	}
	e := exp32(2 * x)
	return (e - 1) / (e + 1)
}

// exp32 is the exponential of -87 to 87 with a relative error below 1e-6: a power of two
// times the Taylor polynomial of the rest, which is at most half of ln 2. It is what
// most of the time would go into.
func exp32(x float32) float32 {
	const log2e, ln2High, ln2Low = 1.442695040888963, 0.693359375, -2.1219444005469057e-4 // ln 2 in two, of which the first is exact
	whole := float32(int32(x*log2e+127.5)) - 127
	r := x - whole*ln2High - whole*ln2Low
	p := 1 + r*(1+r*(0.5+r*(1.0/6+r*(1.0/24+r*(1.0/120+r*(1.0/720))))))
	return p * math.Float32frombits(uint32(int32(whole)+127)<<23)
}
