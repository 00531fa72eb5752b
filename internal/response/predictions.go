package response

import (
	"math"
	"sync"

	"breakwright/internal/table"
	"breakwright/internal/vector"
)

// Predictions is what many strokes would show on one rack and kind of table. A fact is
// worked out when it is first asked for: of most breaks not all is written down.
type Predictions struct {
	network *network
	hidden  matrix // what the strokes come to in the second hidden layer, a column each
	facts   [factCount]factPredictions
}

// factPredictions has for every outcome of a fact a row with each stroke's chance of it, and
// one with the logarithm of that.
type factPredictions struct {
	once          sync.Once
	chances, logs matrix
}

// PredictAll returns what Predict does of each stroke, to the last bit, in less time.
func PredictAll(strokes []Stroke, r Rack, k table.Kind) *Predictions {
	inputs := newMatrix(InputCount, len(strokes))
	for column, s := range strokes {
		for row, x := range s.Normalise(k, r.Spot) {
			inputs.row(row)[column] = x
		}
	}
	n := networkOf(r)
	return &Predictions{network: n, hidden: n.hiddenOfMany(inputs)}
}

// fact returns what the strokes show of a fact.
func (p *Predictions) fact(f Fact) *factPredictions {
	of := &p.facts[f]
	of.once.Do(func() {
		from, to := OutcomesOf(f)
		of.logs, of.chances = newMatrix(to-from, p.hidden.columns), newMatrix(to-from, p.hidden.columns)
		for at := 0; at < p.hidden.columns; at += chunk {
			for outcome := range to - from {
				logits := of.logs.row(outcome)[at:min(at+chunk, of.logs.stride)]
				p.network.last.runOutput(from+outcome, p.hidden.data[at:], p.hidden.stride, logits)
			}
		}
		of.softmax()
	})
	return of
}

// softmax turns the logits of the outcomes, which stand in the place of the logarithms, into
// chances and their logarithms.
func (p *factPredictions) softmax() {
	copy(p.chances.data, p.logs.data)
	vector.Exp(p.chances.data)
	sums := make([]float32, p.logs.stride)
	vector.AddProducts(sums, p.chances.data, p.chances.stride, []float32{1}, 0, p.chances.rows)
	for i := range p.chances.rows {
		vector.Divide(p.chances.row(i), sums)
	}
	for stroke, sum := range sums {
		sums[stroke] = float32(math.Log(float64(sum)))
	}
	for i := range p.logs.rows {
		vector.Subtract(p.logs.row(i), sums)
	}
}

// Chances returns every stroke's chance of an outcome that the networks themselves tell
// apart, by its Index.
func (p *Predictions) Chances(index int) []float32 {
	f, outcome := FactAt(index)
	return p.fact(f).chances.row(outcome)[:p.hidden.columns]
}

// Logs returns the logarithms of every stroke's chance of an outcome.
func (p *Predictions) Logs(index int) []float32 {
	f, outcome := FactAt(index)
	return p.fact(f).logs.row(outcome)[:p.hidden.columns]
}

// Of returns what one of the strokes would show.
func (p *Predictions) Of(stroke int) Response {
	var hidden [Hidden]float32
	for i := range hidden {
		hidden[i] = p.hidden.row(i)[stroke]
	}
	return p.network.respond(hidden[:])
}
