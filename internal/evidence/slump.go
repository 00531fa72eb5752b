package evidence

import "math"

// Slump watches a player set by set for a lasting drop: after each set the sum
// becomes
//
//	max(0, sum + Reference - made)
//
// and at Limit or more it speaks. It is the lower side of a CUSUM on whole counts.
type Slump struct {
	// Reference is in makes a set: half-way between a good and a poor set,
	// such as 4.5 of ten for .55 and .35.
	Reference float64
	// Limit is the sum that raises the alarm.
	Limit float64
}

// Next returns the sum after a set. The sum starts at 0.
func (s Slump) Next(sum float64, made int) float64 {
	return max(0, sum+s.Reference-float64(made))
}

// Alarm reports whether a sum speaks.
func (s Slump) Alarm(sum float64) bool {
	return sum >= s.Limit
}

// RunLength returns how many sets of a size pass, on average and from a sum of 0,
// before the alarm, when every break is a make with the given rate. It is exact.
// When the alarm never comes, or not in a million million sets, it is infinite.
// Reference and Limit should have few decimals (halves, tenths): every sum that can
// occur is one equation.
func (s Slump) RunLength(rate float64, size int) float64 {
	if s.Alarm(0) {
		return 1
	}
	chances := binomial(size, rate)
	sums, index := s.reachable(size)
	system := newLinear(len(sums))
	for i, sum := range sums {
		system.right[i] = 1
		system.at(i)[i]++
		for made, chance := range chances {
			if next := s.Next(sum, made); !s.Alarm(next) {
				system.at(i)[index[sumKey(next)]] -= chance
			}
		}
	}
	return system.firstLength()
}

// reachable lists every sum below the limit that sets of a size can lead to,
// beginning with 0, and where each one stands in the list.
func (s Slump) reachable(size int) ([]float64, map[int64]int) {
	sums, index := []float64{0}, map[int64]int{0: 0}
	for i := 0; i < len(sums); i++ {
		for made := 0; made <= size; made++ {
			next := s.Next(sums[i], made)
			if _, known := index[sumKey(next)]; known || s.Alarm(next) {
				continue
			}
			index[sumKey(next)] = len(sums)
			sums = append(sums, next)
		}
	}
	return sums, index
}

// sumKey makes sums equal that differ only by rounding.
func sumKey(sum float64) int64 {
	return int64(math.Round(sum * 1e6))
}
