package response

import (
	"math"

	"gonum.org/v1/gonum/blas/blas32"

	"breakwright/internal/table"
)

// Predictions is what many strokes would show on one rack and kind of table: for every
// outcome that a network itself tells apart, by its Index, a row with each stroke's chance
// of it, and one with the logarithm of that.
type Predictions struct{ chances, logs blas32.General }

// PredictAll returns what Predict does of each stroke, to the last bit, in less time.
func PredictAll(strokes []Stroke, r Rack, k table.Kind) *Predictions {
	inputs := newMatrix(InputCount, len(strokes))
	for column, s := range strokes {
		for row, x := range s.Normalise(k, r.Spot) {
			inputs.Data[row*inputs.Stride+column] = x
		}
	}
	p := &Predictions{newMatrix(outputs, len(strokes)), networkOf(r).logitsOfMany(inputs)}
	sums := make([]float32, len(strokes))
	for f := range factCount {
		p.softmax(f, sums)
	}
	return p
}

// softmax turns the logits of a fact's outcomes, which stand in the place of the
// logarithms, into chances and their logarithms. Sums has room for a number a stroke.
func (p *Predictions) softmax(f Fact, sums []float32) {
	clear(sums)
	for i := start[f]; i < start[f+1]; i++ {
		chances := p.Chances(i)
		for stroke, logit := range p.Logs(i) {
			chances[stroke] = exp32(min(max(logit, -mostLogit), mostLogit))
			sums[stroke] += chances[stroke]
		}
	}
	for i := start[f]; i < start[f+1]; i++ {
		chances := p.Chances(i)
		for stroke, sum := range sums {
			chances[stroke] /= sum
		}
	}
	for stroke, sum := range sums {
		sums[stroke] = float32(math.Log(float64(sum)))
	}
	for i := start[f]; i < start[f+1]; i++ {
		logs := p.Logs(i)
		for stroke, log := range sums {
			logs[stroke] -= log
		}
	}
}

// mostLogit is far beyond what any network gives, and no sum of its exponentials overflows.
const mostLogit = 60

// Chances returns every stroke's chance of an outcome.
func (p *Predictions) Chances(index int) []float32 { return rowOf(p.chances, index) }

// Logs returns the logarithms of every stroke's chance of an outcome.
func (p *Predictions) Logs(index int) []float32 { return rowOf(p.logs, index) }

// Of returns what one of the strokes would show.
func (p *Predictions) Of(stroke int) Response {
	r := make(Response, Width)
	for i := range outputs {
		r[i] = p.Chances(i)[stroke]
	}
	r.Derive()
	return r
}
