package main

import (
	"math"
	"math/rand/v2"

	"breakwright/internal/response"
)

// Adam's usual constants (Kingma & Ba 2015), with a shorter memory of the second
// moment, and the greatest step, which sinks to nothing along half a cosine.
const (
	batch       = 256
	firstDecay  = 0.9
	secondDecay = 0.99
	largestStep = 0.004
	warmUpSteps = 200
)

// fit learns from the samples so many times over. It shuffles them.
func fit(samples []sample, epochs int, seed uint64) *learner {
	rng := rand.New(rand.NewPCG(seed, 5))
	n := newLearner(rng)
	first, second := make([]float64, n.size()), make([]float64, n.size())
	steps := epochs * (len(samples) / batch)
	step := 0
	for range epochs {
		rng.Shuffle(len(samples), func(i, j int) { samples[i], samples[j] = samples[j], samples[i] })
		for from := 0; from+batch <= len(samples); from += batch {
			for i := from; i < from+batch; i++ {
				n.learn(&samples[i])
			}
			step++
			n.step(first, second, step, steps)
		}
	}
	return n
}

// step moves every weight against its gradient and clears the gradient.
func (n *learner) step(first, second []float64, step, steps int) {
	rate := largestStep * (0.5 + 0.5*math.Cos(math.Pi*float64(step)/float64(steps)))
	rate *= math.Min(1, float64(step)/warmUpSteps)
	unbias1 := 1 - math.Pow(firstDecay, float64(step))
	unbias2 := 1 - math.Pow(secondDecay, float64(step))
	for i := range n.weights {
		g := float64(n.gradient[i]) / batch
		n.gradient[i] = 0
		first[i] = firstDecay*first[i] + (1-firstDecay)*g
		second[i] = secondDecay*second[i] + (1-secondDecay)*g*g
		n.weights[i] -= float32(rate * (first[i] / unbias1) / (math.Sqrt(second[i]/unbias2) + 1e-7))
	}
}

// baseLosses is the log loss of knowing only how often each outcome comes.
func baseLosses(held []sample) [response.FactCount]float64 {
	var losses [response.FactCount]float64
	for f := range losses {
		counts, total := map[int8]float64{}, 0.0
		for i := range held {
			if y := held[i].outcomes[f]; y >= 0 {
				counts[y]++
				total++
			}
		}
		for y := range int8(127) {
			if c := counts[y]; c > 0 {
				losses[f] -= c / total * math.Log(c/total)
			}
		}
	}
	return losses
}
