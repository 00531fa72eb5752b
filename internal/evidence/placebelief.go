package evidence

import (
	"math"
	"slices"
)

// PlaceSet is a set played at one place.
type PlaceSet struct {
	Place       float64
	Made, Tried int
}

// PlaceBelief is what the sets say about every place. Its slices run along the
// places of the curve, in rising order.
type PlaceBelief struct {
	// Places are shared with the curve: not to be written to.
	Places []float64
	// Mean and SD are the expected rate and its standard deviation.
	Mean, SD []float64
	// BestHere is the probability that this is the best of the places.
	BestHere []float64
	// ExpectedBest is the expected rate at whichever place is best, never
	// less than the largest Mean: the difference is what searching can win.
	ExpectedBest float64

	curve   *PlaceCurve
	weights []float64 // by curve, summing to 1
}

// LearnSets returns the belief after the sets, in any order; none returns the prior. An
// impossible count, or a place that is not finite, is passed over. Places
// off the grid are understood, only more slowly.
func (c *PlaceCurve) LearnSets(sets []PlaceSet) PlaceBelief {
	n := len(c.places)
	room := make([]float64, 3*n+len(c.curves))
	b := PlaceBelief{
		Places: c.places, curve: c,
		Mean: room[:n:n], SD: room[n : 2*n : 2*n], BestHere: room[2*n : 3*n : 3*n],
		weights: room[3*n:],
	}
	c.weighCurves(sets, b.weights)
	for h, weight := range b.weights {
		curve := &c.curves[h]
		b.BestHere[curve.best] += weight / 2
		b.BestHere[curve.alsoBest] += weight / 2
		b.ExpectedBest += weight * curve.top
	}
	for i := range c.places {
		b.Mean[i], b.SD[i] = weightedMoments(b.weights, c.rows[i].rate)
	}
	return b
}

// weighCurves fills in the posterior weight of every curve.
func (c *PlaceCurve) weighCurves(sets []PlaceSet, weights []float64) {
	for h := range c.curves {
		weights[h] = c.curves[h].logPrior
	}
	for _, set := range sets {
		if !isPossibleCount(set.Made, set.Tried) || math.IsNaN(set.Place-set.Place) {
			continue
		}
		r, made, missed := c.rowFor(set.Place), float64(set.Made), float64(set.Tried-set.Made)
		for h := range weights {
			weights[h] += made*r.logMake[h] + missed*r.logMiss[h]
		}
	}
	top, sum := slices.Max(weights), 0.0
	for h := range weights {
		weights[h] = math.Exp(weights[h] - top)
		sum += weights[h]
	}
	for h := range weights {
		weights[h] /= sum
	}
}

// weightedMoments returns mean and standard deviation of values under weights.
func weightedMoments(weights, values []float64) (mean, sd float64) {
	square := 0.0
	for h, weight := range weights {
		mean += weight * values[h]
		square += weight * values[h] * values[h]
	}
	return mean, math.Sqrt(max(0, square-mean*mean))
}

// CentralInterval returns the range that the rate at a place of the curve lies in with a
// probability of level, as much of the rest below it as above.
func (b PlaceBelief) CentralInterval(place int, level float64) Interval {
	row, tail := b.curve.rows[place], (1-level)/2
	return Interval{Low: row.quantile(b.weights, tail), High: row.quantile(b.weights, 1-tail)}
}

// quantile returns the rate that a share p of the weight is at or below.
func (r placeRow) quantile(weights []float64, p float64) float64 {
	sum := 0.0
	for _, h := range r.rising {
		if sum += weights[h]; sum >= p {
			return r.rate[h]
		}
	}
	return r.rate[r.rising[len(r.rising)-1]] // the weights' sum, rounded, may stay below p
}

// BestPlace returns the index of the place with the largest expected rate, the lowest
// such place when several tie.
func (b PlaceBelief) BestPlace() int {
	best := 0
	for i, mean := range b.Mean {
		if mean > b.Mean[best] {
			best = i
		}
	}
	return best
}

// NextPlace returns the index of the place to try next from where the player stands:
// the one with the largest mean + curiosity standard deviations, among those at
// most maxStep away. A curiosity of 1 did best in simulated students; 0 is greedy.
// Of equal places the nearest is chosen. When no place is within reach, the
// nearest one is returned.
func (b PlaceBelief) NextPlace(from, curiosity, maxStep float64) int {
	next, _ := b.curve.nearestPlaces(from)
	score, step := math.Inf(-1), math.Inf(1)
	for i, place := range b.Places {
		away := math.Abs(place - from)
		if away > maxStep {
			continue
		}
		promise := b.Mean[i] + curiosity*b.SD[i]
		if promise > score || promise == score && away < step {
			next, score, step = i, promise, away
		}
	}
	return next
}

// ProbBelow returns the probability that the rate at a place is below line.
func (b PlaceBelief) ProbBelow(place, line float64) float64 {
	sum := 0.0
	for h, rate := range b.curve.rowFor(place).rate {
		if rate < line {
			sum += b.weights[h]
		}
	}
	return min(sum, 1)
}

// IsSettled reports whether searching on can win less than tolerance over staying
// at the best place known. 0.06 was a good tolerance in simulated students.
func (b PlaceBelief) IsSettled(tolerance float64) bool {
	return b.ExpectedBest-b.Mean[b.BestPlace()] < tolerance
}
