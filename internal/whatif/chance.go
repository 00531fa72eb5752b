package whatif

import (
	"math"

	"breakwright/internal/evidence"
)

// Level is how sure the ranges are meant to be.
const Level = 0.95

// Chance is how often something happened, and the range in which the model's
// true chance lies: the Jeffreys interval at Level.
type Chance struct {
	Made, Of int
	Range    evidence.Interval
}

// CountEvent counts the breaks of which an event is true.
func (a Answer) CountEvent(e BreakEvent) Chance {
	made := 0
	for _, b := range a.Breaks {
		if e(b) {
			made++
		}
	}
	return Chance{made, len(a.Breaks), evidence.JeffreysInterval(made, len(a.Breaks), Level)}
}

// MeanPocketed is the mean number of object balls pocketed in a break.
func (a Answer) MeanPocketed() float64 {
	sum := 0
	for _, b := range a.Breaks {
		sum += b.Down
	}
	return float64(sum) / math.Max(1, float64(len(a.Breaks)))
}

// Difference is how a chance changes from one setting to another, as shares
// from -1 to 1: After minus Before, and the range in which the model's true
// difference lies.
type Difference struct {
	Share, Low, High float64
}

// ExcludesZero reports whether the range leaves out "no difference".
func (d Difference) ExcludesZero() bool { return d.Low > 0 || d.High < 0 }

// CompareAnswers returns the difference that another setting makes to an event. Break i
// of both answers met the same luck, so the breaks are taken in pairs; the
// range is the adjusted Wald interval for matched proportions, half a pair
// added to each of the four cells (Agresti and Min 2005, from memory; its
// coverage is tested). Breaks beyond the shorter answer are left out; two
// answers without breaks may differ by anything.
func CompareAnswers(before, after Answer, e BreakEvent) Difference {
	n := min(len(before.Breaks), len(after.Breaks))
	if n == 0 {
		return Difference{Low: -1, High: 1}
	}
	gained, lost := 0, 0
	for i := range n {
		switch was, is := e(before.Breaks[i]), e(after.Breaks[i]); {
		case is && !was:
			gained++
		case was && !is:
			lost++
		}
	}
	return matchedDifference(gained, lost, n)
}

func matchedDifference(gained, lost, n int) Difference {
	const z = 1.959963984540054 // of a two-sided level of 0.95
	apart, either, pairs := float64(gained-lost), float64(gained+lost), float64(n)
	centre := apart / (pairs + 2)
	half := z * math.Sqrt(either+1-apart*apart/(pairs+2)) / (pairs + 2)
	return Difference{Share: apart / pairs, Low: math.Max(centre-half, -1), High: math.Min(centre+half, 1)}
}
