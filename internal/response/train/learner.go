package main

import (
	"encoding/binary"
	"math"
	"math/rand/v2"

	"breakwright/internal/response"
)

// learner is a network of package response with what it takes to fit it. Its
// weights stand in one row: what a table's constants make of its character, as many numbers
// as are mixed; the first hidden layer, the second, the outputs, each unit's inputs and
// then its bias.
type learner struct {
	weights, gradient []float32
	inputs            response.Inputs
	first, second     [response.Hidden]float32
	dFirst, dSecond   [response.Hidden]float32
	outs, dOuts       []float32
	loss              [response.FactCount]float64
}

const (
	characterAt = response.InputCount - response.CharacterSize
	mixed       = response.Instant
	firstAt     = mixed * constantCount
	firstRow    = response.InputCount + 1
	row         = response.Hidden + 1
	secondAt    = firstAt + response.Hidden*firstRow
	outputsAt   = secondAt + response.Hidden*row
)

func newLearner(rng *rand.Rand) *learner {
	outputs := response.OutputCount()
	n := &learner{outs: make([]float32, outputs), dOuts: make([]float32, outputs)}
	n.weights = make([]float32, outputsAt+outputs*row)
	n.gradient = make([]float32, len(n.weights))
	for i := range n.weights {
		spread := 0.05
		switch {
		case i < firstAt:
			spread = 0.3
		case i < secondAt:
			spread = 0.5
		case i < outputsAt:
			spread = 1 / math.Sqrt(response.Hidden)
		}
		n.weights[i] = float32(spread * rng.NormFloat64())
	}
	return n
}

func (n *learner) size() int { return len(n.weights) }

func (n *learner) forward(s *sample) {
	n.inputs = s.inputs
	for i := range mixed {
		for j, c := range s.constants {
			n.inputs[characterAt+i] += n.weights[i*constantCount+j] * c
		}
	}
	for i := range n.first {
		w := n.firstUnit(n.weights, i)
		sum := w[response.InputCount]
		for j, v := range n.inputs {
			sum += w[j] * v
		}
		n.first[i] = float32(math.Tanh(float64(sum)))
	}
	for i := range n.second {
		n.second[i] = float32(math.Tanh(float64(unit(n.weights[secondAt+i*row:], &n.first))))
	}
	for i := range n.outs {
		n.outs[i] = unit(n.weights[outputsAt+i*row:], &n.second)
	}
}

// firstUnit returns the weights of a unit of the first hidden layer, or their gradient.
func (n *learner) firstUnit(of []float32, unit int) []float32 {
	return of[firstAt+unit*firstRow:][:firstRow]
}

// unit is the weighted sum of a layer's values and the bias behind them.
func unit(w []float32, v *[response.Hidden]float32) float32 {
	w = w[:row]
	sum := w[response.Hidden]
	for j, x := range v {
		sum += w[j] * x
	}
	return sum
}

// learn adds the gradient of one sample's loss.
func (n *learner) learn(s *sample) {
	n.forward(s)
	n.outputGradients(s)
	n.dSecond = [response.Hidden]float32{}
	for i, d := range n.dOuts {
		if d != 0 {
			n.back(outputsAt+i*row, d, &n.second, &n.dSecond)
		}
	}
	n.dFirst = [response.Hidden]float32{}
	for i, d := range n.dSecond {
		n.back(secondAt+i*row, d*(1-n.second[i]*n.second[i]), &n.first, &n.dFirst)
	}
	var dInputs response.Inputs
	for i, d := range n.dFirst {
		d *= 1 - n.first[i]*n.first[i]
		w, g := n.firstUnit(n.weights, i), n.firstUnit(n.gradient, i)
		for j, x := range n.inputs {
			g[j] += d * x
			dInputs[j] += d * w[j]
		}
		g[response.InputCount] += d
	}
	for i := range mixed {
		for j, c := range s.constants {
			n.gradient[i*constantCount+j] += dInputs[characterAt+i] * c
		}
	}
}

// back adds a unit's gradient d to its weights and to the layer below.
func (n *learner) back(at int, d float32, below, dBelow *[response.Hidden]float32) {
	w, g := n.weights[at:at+row], n.gradient[at:at+row]
	for j, x := range below {
		g[j] += d * x
		dBelow[j] += d * w[j]
	}
	g[response.Hidden] += d
}

// outputGradients turns outputs into probability less what was seen, fact by
// fact, and counts the loss. A fact that was not seen teaches nothing.
func (n *learner) outputGradients(s *sample) {
	n.loss = [response.FactCount]float64{}
	for f := range response.FactCount {
		from, to := response.Index(response.Fact(f), 0), response.Index(response.Fact(f+1), 0)
		y := s.outcomes[f]
		if y < 0 {
			clear(n.dOuts[from:to])
			continue
		}
		top := n.outs[from]
		for _, o := range n.outs[from:to] {
			top = max(top, o)
		}
		sum := float32(0)
		for i := from; i < to; i++ {
			n.dOuts[i] = float32(math.Exp(float64(n.outs[i] - top)))
			sum += n.dOuts[i]
		}
		for i := from; i < to; i++ {
			n.dOuts[i] /= sum
		}
		n.loss[f] = -math.Log(float64(n.dOuts[from+int(y)]) + 1e-12)
		n.dOuts[from+int(y)]--
	}
}

// losses is the mean log loss of each fact over samples.
func (n *learner) losses(held []sample) [response.FactCount]float64 {
	var losses, seen [response.FactCount]float64
	for i := range held {
		n.forward(&held[i])
		n.outputGradients(&held[i])
		for f := range losses {
			if held[i].outcomes[f] >= 0 {
				losses[f] += n.loss[f]
				seen[f]++
			}
		}
	}
	for f := range losses {
		losses[f] /= math.Max(seen[f], 1)
	}
	return losses
}

// encode writes the weights as package response reads them: for each unit the
// greatest weight as float32, then every weight as an int16 share of it.
func (n *learner) encode() []byte {
	var out []byte
	write := func(w []float32) {
		top := float32(0)
		for _, v := range w {
			top = max(top, float32(math.Abs(float64(v))))
		}
		out = binary.LittleEndian.AppendUint32(out, math.Float32bits(top))
		for _, v := range w {
			out = binary.LittleEndian.AppendUint16(out, uint16(int16(math.Round(float64(v/top*math.MaxInt16)))))
		}
	}
	for i := range response.Hidden {
		write(n.firstUnit(n.weights, i))
	}
	for at := secondAt; at < len(n.weights); at += row {
		write(n.weights[at : at+row])
	}
	return out
}
