package response

import (
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas32"
)

// Hidden is the width of each of the two hidden layers.
const Hidden = 40

// network is two hidden layers of tanh and a softmax for each fact.
type network struct{ first, second, last layer }

// layer is the weights from each of its inputs (rows) to each of its outputs (columns),
// and the outputs' biases.
type layer struct {
	weights blas32.General
	biases  []float32
}

func newLayer(inputs, outputs int) layer {
	return layer{newMatrix(inputs, outputs), make([]float32, outputs)}
}

// setOutput sets the weights to one output, its bias last.
func (l *layer) setOutput(output int, weights []float32) {
	for input := range l.weights.Rows {
		l.weights.Data[input*l.weights.Stride+output] = weights[input]
	}
	l.biases[output] = weights[l.weights.Rows]
}

// run writes the outputs' sums, adding up the inputs in the order in which runMany does, so
// that both give the same to the last bit.
func (l *layer) run(in, out []float32) {
	copy(out, l.biases)
	sums := blas32.Vector{N: len(out), Inc: 1, Data: out}
	for input, x := range in {
		blas32.Axpy(x, blas32.Vector{N: len(out), Inc: 1, Data: rowOf(l.weights, input)}, sums)
	}
}

// logits runs the network.
func (n *network) logits(x *Inputs, out []float32) {
	var a, b [Hidden]float32
	n.first.run(x[:], a[:])
	replaceByTanh(a[:])
	n.second.run(a[:], b[:])
	replaceByTanh(b[:])
	n.last.run(b[:], out)
}

// chunk is how many strokes go through a network at once: as many as stay in a
// processor's nearest cache.
const chunk = 64

// logitsOfMany runs the network on many strokes, a column each.
func (n *network) logitsOfMany(x blas32.General) blas32.General {
	out := newMatrix(n.last.weights.Cols, x.Cols)
	a, b := newMatrix(Hidden, chunk), newMatrix(Hidden, chunk)
	for from := 0; from < x.Cols; from += chunk {
		width := min(chunk, x.Cols-from)
		a.Cols, b.Cols = width, width
		n.first.runMany(columns(x, from, width), a)
		replaceByTanh(a.Data)
		n.second.runMany(a, b)
		replaceByTanh(b.Data)
		n.last.runMany(b, columns(out, from, width))
	}
	return out
}

// runMany writes the outputs' sums of many strokes, a column each.
func (l *layer) runMany(in, out blas32.General) {
	for output, bias := range l.biases {
		row := rowOf(out, output)
		for i := range row {
			row[i] = bias
		}
	}
	blas32.Gemm(blas.Trans, blas.NoTrans, 1, l.weights, in, 1, out)
}

func newMatrix(rows, columns int) blas32.General {
	return blas32.General{Rows: rows, Cols: columns, Stride: columns, Data: make([]float32, rows*columns)}
}

// columns are so many of a matrix's, which they share.
func columns(m blas32.General, from, width int) blas32.General {
	return blas32.General{Rows: m.Rows, Cols: width, Stride: m.Stride, Data: m.Data[from:]}
}

func rowOf(m blas32.General, row int) []float32 {
	return m.Data[row*m.Stride:][:m.Cols]
}

func replaceByTanh(v []float32) {
	for i, x := range v {
		v[i] = tanh32(x)
	}
}

// tanh32 is exact to 1e-6, by the exponential.
func tanh32(x float32) float32 {
	const flat = 9 // beyond which it is 1
	if x > flat {
		x = flat
	}
	if x < -flat {
		x = -flat
	}
	e := exp32(2 * x)
	return (e - 1) / (e + 1)
}

// exp32 is the exponential of -87 to 87 with a relative error below 1e-6: a power of two
// times the Taylor polynomial of the rest, which is at most half of ln 2, its terms in
// pairs, which the processor works out side by side. It is what most of the time would
// go into.
func exp32(x float32) float32 {
	const log2e, ln2High, ln2Low = 1.442695040888963, 0.693359375, -2.1219444005469057e-4 // ln 2 in two, of which the first is exact
	power := int32(x*log2e + 127.5)
	whole := float32(power - 127)
	r := x - whole*ln2High - whole*ln2Low
	square := r * r
	p := 1 + r + square*(0.5+r*(1.0/6)+square*(1.0/24+r*(1.0/120)+square*(1.0/720)))
	return p * math.Float32frombits(uint32(power)<<23)
}
