package response

import "breakwright/internal/vector"

// Hidden is the width of each of the two hidden layers.
const Hidden = 40

// network is two hidden layers of tanh and a softmax for each fact.
type network struct{ first, second, last layer }

// layer is the weights from each of its inputs (rows) to each of its outputs (columns),
// and the outputs' biases.
type layer struct {
	weights matrix
	biases  []float32
}

func newLayer(inputs, outputs int) layer {
	weights := newMatrix(inputs, outputs)
	return layer{weights, make([]float32, weights.stride)}
}

// setOutput sets the weights to one output, its bias last.
func (l *layer) setOutput(output int, weights []float32) {
	for input := range l.weights.rows {
		l.weights.row(input)[output] = weights[input]
	}
	l.biases[output] = weights[l.weights.rows]
}

// run writes the outputs' sums, adding up the inputs in the order in which runMany does, so
// that both give the same to the last bit. The outputs are padded: see package vector.
func (l *layer) run(in, out []float32) {
	copy(out, l.biases)
	vector.AddProducts(out, l.weights.data, l.weights.stride, in, 1, len(in))
}

// hidden returns what the network's second hidden layer comes to.
func (n *network) hidden(x *Inputs) (b [Hidden]float32) {
	var a [Hidden]float32
	n.first.run(x[:], a[:])
	vector.Tanh(a[:])
	n.second.run(a[:], b[:])
	vector.Tanh(b[:])
	return b
}

// respond returns the chances of all outcomes by what the second hidden layer came to.
func (n *network) respond(hidden []float32) Response {
	r := make(Response, Width)
	padded := r[:n.last.weights.stride] // the padding is less than what is derived
	n.last.run(hidden, padded)
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
	a := newMatrix(Hidden, chunk)
	out := newMatrix(Hidden, x.columns)
	for from := 0; from < x.columns; from += chunk {
		width := min(chunk, x.stride-from)
		for unit := range Hidden {
			n.first.runOutput(unit, x.data[from:], x.stride, a.row(unit)[:width])
		}
		vector.Tanh(a.data)
		for unit := range Hidden {
			sums := out.row(unit)[from:][:width]
			n.second.runOutput(unit, a.data, a.stride, sums)
			vector.Tanh(sums)
		}
	}
	return out
}

// runOutput writes one output's sums of many strokes, whose inputs stand in rows.
func (l *layer) runOutput(output int, in []float32, stride int, sums []float32) {
	for i := range sums {
		sums[i] = l.biases[output]
	}
	vector.AddProducts(sums, in, stride, l.weights.data[output:], l.weights.stride, l.weights.rows)
}

// matrix stands in rows that are padded, for package vector, with what means nothing.
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
