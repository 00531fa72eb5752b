package response

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/blas/blas32"

	"breakwright/internal/table"
)

// Predictions is what many strokes would show on one rack and kind of table. A fact is
// worked out when it is first asked for: of most breaks not all is written down.
type Predictions struct {
	network *network
	hidden  blas32.General // what the strokes come to in the second hidden layer, a column each
	facts   [factCount]factPredictions
}

// factPredictions has for every outcome of a fact a row with each stroke's chance of it, and
// one with the logarithm of that.
type factPredictions struct {
	once          sync.Once
	chances, logs blas32.General
}

// PredictAll returns what Predict does of each stroke, to the last bit, in less time.
func PredictAll(strokes []Stroke, r Rack, k table.Kind) *Predictions {
	inputs := newMatrix(InputCount, len(strokes))
	for column, s := range strokes {
		for row, x := range s.Normalise(k, r.Spot) {
			inputs.Data[row*inputs.Stride+column] = x
		}
	}
	n := networkOf(r)
	return &Predictions{network: n, hidden: n.hiddenOfMany(inputs)}
}

// fact returns what the strokes show of a fact.
func (p *Predictions) fact(f Fact) *factPredictions {
	of := &p.facts[f]
	of.once.Do(func() {
		of.logs = p.network.last.outputsFrom(start[f], start[f+1]).runInChunks(p.hidden)
		of.chances = newMatrix(of.logs.Rows, of.logs.Cols)
		of.softmax()
	})
	return of
}

// softmax turns the logits of the outcomes, which stand in the place of the logarithms, into
// chances and their logarithms.
func (p *factPredictions) softmax() {
	sums := make([]float32, p.logs.Cols)
	for i := range p.logs.Rows {
		chances, logits := rowOf(p.chances, i), rowOf(p.logs, i)
		for stroke := range sums {
			e := exp32(clampLogit(logits[stroke]))
			chances[stroke] = e
			sums[stroke] += e
		}
	}
	for i := range p.logs.Rows {
		chances := rowOf(p.chances, i)
		for stroke, sum := range sums {
			chances[stroke] /= sum
		}
	}
	for stroke, sum := range sums {
		sums[stroke] = float32(math.Log(float64(sum)))
	}
	for i := range p.logs.Rows {
		logs := rowOf(p.logs, i)
		for stroke, log := range sums {
			logs[stroke] -= log
		}
	}
}

// clampLogit keeps a logit to what is far beyond what any network gives, and so that no sum
// of exponentials overflows.
func clampLogit(logit float32) float32 {
	const most = 60
	if logit > most {
		return most
	}
	if logit < -most {
		return -most
	}
	return logit
}

// Chances returns every stroke's chance of an outcome that the networks themselves tell
// apart, by its Index.
func (p *Predictions) Chances(index int) []float32 {
	f, outcome := FactAt(index)
	return rowOf(p.fact(f).chances, outcome)
}

// Logs returns the logarithms of every stroke's chance of an outcome.
func (p *Predictions) Logs(index int) []float32 {
	f, outcome := FactAt(index)
	return rowOf(p.fact(f).logs, outcome)
}

// Of returns what one of the strokes would show.
func (p *Predictions) Of(stroke int) Response {
	var hidden [Hidden]float32
	for i := range hidden {
		hidden[i] = rowOf(p.hidden, i)[stroke]
	}
	return p.network.respond(hidden[:])
}
