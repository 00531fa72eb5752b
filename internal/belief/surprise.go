package belief

import (
	"math"

	"breakwright/internal/response"
)

// Surprise says by how many standard deviations what became of wing ball and cue
// ball is stranger than the likeliest hand would show on average: far above 1
// these breaks are like nothing that was computed, and the belief is to be
// trusted less.
func (s *Student) Surprise() float64 {
	best := 0
	for i, w := range s.handWeights() {
		if w > s.weights[best] {
			best = i
		}
	}
	excess, variance := 0.0, 0.0
	for _, seen := range s.seen {
		played := s.situationOf(seen.setup, seen.kind)
		chances := s.chances(played, best)
		for _, f := range []response.Fact{response.Wing, response.Cue} {
			mean, square := logMoments(f, chances)
			count := 0.0
			for _, c := range seen.counts {
				if c.Fact == f {
					count += float64(c.Weight)
					excess -= float64(c.Weight) * max(math.Log(float64(chances[c.Index])), surest-1)
				}
			}
			excess += count * mean
			variance += count * (square - mean*mean)
		}
	}
	if variance <= 0 {
		return 0
	}
	return excess / math.Sqrt(variance)
}

// logMoments returns the mean and the mean square of the logarithm that a fact's outcome
// has, by the chances themselves.
func logMoments(f response.Fact, chances response.Response) (mean, square float64) {
	from, to := response.OutcomesOf(f)
	for _, chance := range chances[from:to] {
		p := float64(chance)
		l := math.Log(p)
		mean += p * l
		square += p * l * l
	}
	return mean, square
}
