package response

import (
	"slices"
	"sync"

	"breakwright/internal/table"
	"breakwright/internal/vector"
)

// Predictions is what many strokes would show on one rack and kind of table. A fact is
// worked out when it is first asked for: of most breaks not all is written down.
type Predictions struct {
	network *network
	hidden  matrix // unitValues of the second hidden layer, a column for each stroke
	facts   [factCount]factPredictions
}

// factPredictions has for every outcome of a fact a row with each stroke's logit, and what
// the exponentials of each stroke's logits add up to, with the logarithm of that.
type factPredictions struct {
	once          sync.Once
	logits        matrix
	sums, logSums []float32
}

// PredictAll returns what Predict does of each stroke, to the last bit, in less time.
func PredictAll(strokes []Stroke, r Rack, k table.Kind) *Predictions {
	inputs := newMatrix(1+InputCount, len(strokes))
	fillWithOnes(inputs.row(0))
	for column, s := range strokes {
		for row, x := range s.Normalise(k, r.Spot) {
			inputs.row(1 + row)[column] = x
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
		of.logits = p.network.last.runOutputs(from, to, p.hidden)
		of.sumUp()
	})
	return of
}

func (p *factPredictions) sumUp() {
	p.sums = make([]float32, p.logits.columns)
	exponentials := make([]float32, p.logits.columns)
	for outcome := range p.logits.rows {
		copy(exponentials, p.logits.row(outcome))
		vector.Exp(exponentials)
		vector.AddProduct(p.sums, exponentials, 1)
	}
	p.logSums = slices.Clone(p.sums)
	vector.Log(p.logSums)
}

// Chances writes every stroke's chance of an outcome that the networks themselves tell
// apart, by its Index.
func (p *Predictions) Chances(index int, into []float32) {
	f, outcome := FactAt(index)
	of := p.fact(f)
	copy(into, of.logits.row(outcome))
	vector.Exp(into)
	vector.Divide(into, of.sums)
}

// Logs writes the logarithms of every stroke's chance of an outcome.
func (p *Predictions) Logs(index int, into []float32) {
	f, outcome := FactAt(index)
	of := p.fact(f)
	copy(into, of.logits.row(outcome))
	vector.AddProduct(into, of.logSums, -1)
}

// Of returns what one of the strokes would show.
func (p *Predictions) Of(stroke int) Response {
	var hidden unitValues
	for i := range hidden {
		hidden[i] = p.hidden.row(i)[stroke]
	}
	return p.network.respond(&hidden)
}
