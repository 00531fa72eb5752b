package evidence

import "math"

// binomial returns the chance of every number of makes in so many breaks at a
// rate, which is pulled into 0..1.
func binomial(breaks int, rate float64) []float64 {
	breaks, rate = max(breaks, 0), between(rate, 0, 1)
	chances := make([]float64, breaks+1)
	switch rate {
	case 0:
		chances[0] = 1
	case 1:
		chances[breaks] = 1
	default:
		made, missed := math.Log(rate), math.Log1p(-rate)
		for k := range chances {
			chances[k] = math.Exp(logChoose(breaks, k) + float64(k)*made + float64(breaks-k)*missed)
		}
	}
	return chances
}

// oneMore returns the chances of every number of makes after one more break.
func oneMore(chances []float64, rate float64) []float64 {
	chances = append(chances, 0)
	for made := len(chances) - 1; made > 0; made-- {
		chances[made] = chances[made]*(1-rate) + chances[made-1]*rate
	}
	chances[0] *= 1 - rate
	return chances
}

// convolve returns the chances of every sum of two independent counts.
func convolve(a, b []float64) []float64 {
	sum := make([]float64, len(a)+len(b)-1)
	for i, x := range a {
		if x == 0 {
			continue
		}
		for j, y := range b {
			sum[i+j] += x * y
		}
	}
	return sum
}
