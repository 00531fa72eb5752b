package response

import "breakwright/internal/vector"

// Hidden is the width of each of the two hidden layers.
const Hidden = 40

// network is two hidden layers of tanh and a softmax for each fact.
type network struct{ first, second, last layer }

// layer is the weights from each of its inputs (rows) to each of its outputs (columns). The
// first input is 1, so that its weights are the outputs' biases.
type layer struct{ weights matrix }

// newLayer makes one of so many inputs besides the 1.
func newLayer(inputs, outputs int) layer { return layer{newMatrix(1+inputs, outputs)} }

// setOutput sets the weights to one output, its bias last.
func (l *layer) setOutput(output int, weights []float32) {
	bias := l.weights.rows - 1
	l.weights.row(0)[output] = weights[bias]
	for input, weight := range weights[:bias] {
		l.weights.row(1 + input)[output] = weight
	}
}

// run adds up the outputs, which are 0 yet, by the inputs in the order in which runMany does,
// so that both give the same to the last bit.
func (l *layer) run(in, out []float32) {
	vector.AddProducts(out, l.weights.data, l.weights.stride, in, 1, len(in))
}

// unitValues are what a hidden layer comes to, behind a 1.
type unitValues [1 + Hidden]float32

// hidden returns what the network's second hidden layer comes to.
func (n *network) hidden(x *Inputs) unitValues {
	in, a, b := [1 + InputCount]float32{1}, unitValues{1}, unitValues{1}
	copy(in[1:], x[:])
	n.first.run(in[:], a[1:])
	vector.Tanh(a[1:])
	n.second.run(a[:], b[1:])
	vector.Tanh(b[1:])
	return b
}

// respond returns the chances of all outcomes by what the second hidden layer came to.
func (n *network) respond(hidden *unitValues) Response {
	r := make(Response, Width)
	padded := r[:n.last.weights.stride] // the padding is less than what is derived
	n.last.run(hidden[:], padded)
	vector.Exp(padded)
	for f := range factCount {
		normalise(r[start[f]:start[f+1]])
	}
	r.Derive()
	return r
}

// normalise makes chances of what is in proportion to them.
func normalise(v []float32) {
	var sum float32
	for _, x := range v {
		sum += x
	}
	for i := range v {
		v[i] /= sum
	}
}

// chunk is how many strokes go through a network at once: as many as stay in a
// processor's nearest cache.
const chunk = 16 * vector.Lanes

// hiddenOfMany does what hidden does for many strokes, a column each.
func (n *network) hiddenOfMany(x matrix) matrix {
	a, b := newMatrix(1+Hidden, chunk), newMatrix(1+Hidden, x.columns)
	fillWithOnes(a.row(0))
	fillWithOnes(b.row(0))
	for from := 0; from < x.columns; from += chunk {
		width := min(chunk, x.stride-from)
		for unit := range Hidden {
			sums := a.row(1 + unit)[:width]
			clear(sums)
			n.first.runMany(unit, x.data[from:], x.stride, sums)
			vector.Tanh(sums)
		}
		for unit := range Hidden {
			sums := b.row(1 + unit)[from:][:width]
			n.second.runMany(unit, a.data, a.stride, sums)
			vector.Tanh(sums)
		}
	}
	return b
}

func fillWithOnes(v []float32) {
	for i := range v {
		v[i] = 1
	}
}

// runOutputs returns some outputs of many strokes, a row each.
func (l *layer) runOutputs(from, to int, in matrix) matrix {
	out := newMatrix(to-from, in.columns)
	for at := 0; at < in.columns; at += chunk {
		for output := from; output < to; output++ {
			l.runMany(output, in.data[at:], in.stride, out.row(output - from)[at:min(at+chunk, out.stride)])
		}
	}
	return out
}

// runMany adds up one output of some strokes, which is 0 yet; their inputs stand in rows.
func (l *layer) runMany(output int, in []float32, stride int, sums []float32) {
	vector.AddProducts(sums, in, stride, l.weights.data[output:], l.weights.stride, l.weights.rows)
}

// matrix has its rows padded, as is fastest for package vector, with what means nothing.
type matrix struct {
	rows, columns, stride int
	data                  []float32
}

func newMatrix(rows, columns int) matrix {
	stride := vector.Pad(columns)
	return matrix{rows, columns, stride, make([]float32, rows*stride)}
}

// row returns a row with its padding.
func (m matrix) row(i int) []float32 { return m.data[i*m.stride:][:m.stride] }
