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
	x, sums := blas32.Vector{N: len(in), Inc: 1, Data: in}, blas32.Vector{N: len(out), Inc: 1, Data: out}
	blas32.Gemv(blas.Trans, 1, l.weights, x, 1, sums)
}

// hidden returns what the network's second hidden layer comes to.
func (n *network) hidden(x *Inputs) (b [Hidden]float32) {
	var a [Hidden]float32
	n.first.run(x[:], a[:])
	replaceByTanh(a[:])
	n.second.run(a[:], b[:])
	replaceByTanh(b[:])
	return b
}

// respond returns the chances of all outcomes by what the second hidden layer came to.
func (n *network) respond(hidden []float32) Response {
	r := make(Response, Width)
	n.last.run(hidden, r[:outputs])
	for f := range factCount {
		softmax(r[start[f]:start[f+1]])
	}
	r.Derive()
	return r
}

// chunk is how many strokes go through a network at once: as many as stay in a
// processor's nearest cache.
const chunk = 128

// hiddenOfMany does what hidden does for many strokes, a column each.
func (n *network) hiddenOfMany(x blas32.General) blas32.General {
	a := newMatrix(Hidden, chunk)
	out := newMatrix(Hidden, x.Cols)
	for from := 0; from < x.Cols; from += chunk {
		width := min(chunk, x.Cols-from)
		a.Cols = width
		n.first.runMany(columns(x, from, width), a)
		replaceByTanh(a.Data)
		n.second.runMany(a, columns(out, from, width))
	}
	replaceByTanh(out.Data)
	return out
}

// runInChunks returns the outputs' sums of many strokes, a column each.
func (l layer) runInChunks(in blas32.General) blas32.General {
	out := newMatrix(len(l.biases), in.Cols)
	for from := 0; from < in.Cols; from += chunk {
		width := min(chunk, in.Cols-from)
		l.runMany(columns(in, from, width), columns(out, from, width))
	}
	return out
}

// outputsFrom is the part of a layer that makes some of its outputs.
func (l *layer) outputsFrom(from, to int) layer {
	return layer{columns(l.weights, from, to-from), l.biases[from:to]}
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

// replaceByTanh is exact to 1e-4, by the exponential.
func replaceByTanh(v []float32) {
	const flat = 9 // beyond which it is 1
	for i, x := range v {
		if x > flat {
			x = flat
		}
		if x < -flat {
			x = -flat
		}
		v[i] = 1 - 2/(exp32(2*x)+1)
	}
}

// exp32 is the exponential of -87 to 87 with a relative error below 1e-4, far less than
// the networks': a power of two times the Taylor polynomial of the rest, which is at most
// half of ln 2. It is what most of the time goes into, and so it rounds by adding what
// leaves a float32 no digits behind the point.
func exp32(x float32) float32 {
	const noFraction, log2e, ln2 = 3 << 22, 1.442695040888963, 0.6931471805599453
	shifted := x*log2e + noFraction
	r := x - (shifted-noFraction)*ln2
	power := math.Float32bits(shifted) + 127 // what stands before it is shifted out
	return (1 + r*(1+r*(0.5+r*(1.0/6+r*(1.0/24))))) * math.Float32frombits(power<<23)
}
