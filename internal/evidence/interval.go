package evidence

import "math"

// Interval is a range of rates from Low to High, both within 0..1.
type Interval struct {
	Low, High float64
}

// wholeRange is the interval of somebody who has seen nothing.
var wholeRange = Interval{Low: 0, High: 1}

// Contains reports whether rate lies in the interval, ends included.
func (i Interval) Contains(rate float64) bool {
	return i.Low <= rate && rate <= i.High
}

// Width returns High minus Low.
func (i Interval) Width() float64 {
	return i.High - i.Low
}

// Mirror returns the interval of the opposite event: misses for makes.
func (i Interval) Mirror() Interval {
	return Interval{Low: 1 - i.High, High: 1 - i.Low}
}

// WilsonInterval returns the score interval of Wilson (1927) for made of tried at a
// level such as 0.95. It is closed form, behaves at 0 and at all, and is the one
// to show beside a rate: Brown, Cai and DasGupta (2001) recommend it, with
// Jeffreys, for small counts. Nothing tried returns 0..1.
func WilsonInterval(made, tried int, level float64) Interval {
	z, ok := intervalZ(made, tried, level)
	if !ok {
		return wholeRange
	}
	n, rate := float64(tried), float64(made)/float64(tried)
	centre := (rate + z*z/(2*n)) / (1 + z*z/n)
	half := z / (1 + z*z/n) * math.Sqrt(rate*(1-rate)/n+z*z/(4*n*n))
	return closedEnds(Interval{Low: centre - half, High: centre + half}, made, tried)
}

// JeffreysInterval returns the equal-tailed credible interval under the Jeffreys prior
// Beta(1/2, 1/2), with the convention of Brown, Cai and DasGupta (2001): the
// lower end is 0 when nothing was made and the upper end 1 when nothing was
// missed. Nothing tried returns 0..1.
func JeffreysInterval(made, tried int, level float64) Interval {
	if _, ok := intervalZ(made, tried, level); !ok {
		return wholeRange
	}
	posterior := BetaFromCounts(made, tried, JeffreysPrior())
	return closedEnds(posterior.CentralInterval(level), made, tried)
}

// intervalZ returns the normal quantile of a two-sided level, and false where
// the counts or the level allow nothing to be said.
func intervalZ(made, tried int, level float64) (float64, bool) {
	if !isPossibleCount(made, tried) || tried == 0 || !(level > 0 && level < 1) {
		return 0, false
	}
	return normalQuantile((1 + level) / 2), true
}

// closedEnds puts the ends that are known exactly to 0 and 1, so that rounding
// does not print a lower end of 0.000000001 for none of ten.
func closedEnds(i Interval, made, tried int) Interval {
	i = Interval{Low: clampBetween(i.Low, 0, 1), High: clampBetween(i.High, 0, 1)}
	if made == 0 {
		i.Low = 0
	}
	if made == tried {
		i.High = 1
	}
	return i
}
