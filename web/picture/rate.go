package picture

import (
	"fmt"
	"math"
)

// countWords is the count beside every rate: "7 of 30".
func (r RateView) countWords() string {
	if r.Of <= 0 {
		return "no breaks yet"
	}
	return fmt.Sprintf("%d of %d", r.Made, r.Of)
}

func (r RateView) rate() float64 {
	if r.Of <= 0 {
		return 0
	}
	return share(float64(r.Made) / float64(r.Of))
}

// band is the interval kept between 0 and 1, and false where there is none.
func (r RateView) band() (low, width float64, drawn bool) {
	low, high := share(r.Low), share(r.High)
	return low, high - low, high > low
}

// share keeps a rate between 0 and 1; what is not a number is 0.
func share(f float64) float64 {
	if math.IsNaN(f) {
		return 0
	}
	return min(max(f, 0), 1)
}

// percentWords writes a share in whole percents: "23 percent".
func percentWords(f float64) string { return fmt.Sprintf("%.0f percent", 100*share(f)) }

// DescribeRate says the count, the band and the target.
func DescribeRate(r RateView) string {
	words := r.Label + ": " + r.countWords() + "."
	if low, width, drawn := r.band(); drawn && r.Of > 0 {
		words += fmt.Sprintf(" The band runs from %.0f to %s.", 100*low, percentWords(low+width))
	}
	if r.Target > 0 {
		words += " The target is " + percentWords(r.Target) + "."
	}
	return words
}

// DescribePair says both rates.
func DescribePair(p PairView) string {
	return p.Title + ". Before: " + DescribeRate(p.Before) + " After: " + DescribeRate(p.After)
}

// RateKey lists the marks of a rate bar, or of several: a target that differs
// from bar to bar is named without its number.
func RateKey(rates ...RateView) []KeyItem {
	var seen, band, varies bool
	var target float64
	for _, r := range rates {
		_, _, drawn := r.band()
		seen, band = seen || r.Of > 0, band || drawn
		if r.Target > 0 {
			varies = varies || target > 0 && target != r.Target
			target = r.Target
		}
	}
	var key []KeyItem
	if seen {
		key = append(key, KeyItem{MarkRate, "the rate seen"})
	}
	if band {
		key = append(key, KeyItem{MarkBand, "where the true rate may lie"})
	}
	switch {
	case varies:
		key = append(key, KeyItem{MarkGoal, "the drill’s target"})
	case target > 0:
		key = append(key, KeyItem{MarkGoal, "target, " + percentWords(target)})
	}
	return key
}
