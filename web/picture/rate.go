package picture

import (
	"fmt"
	"math"

	"breakwright/internal/say"
)

// countWords is the count beside every rate: "7 of 30".
func (r RateView) countWords() string {
	if r.Of <= 0 {
		return "not watched"
	}
	return say.OfTotal(r.Made, r.Of)
}

func (r RateView) shareMade() float64 {
	if r.Of <= 0 {
		return 0
	}
	return clampShare(float64(r.Made) / float64(r.Of))
}

// bandShares is the interval kept between 0 and 1, and false where there is none, as of
// what was not watched.
func (r RateView) bandShares() (low, width float64, drawn bool) {
	low, high := clampShare(r.Low), clampShare(r.High)
	return low, high - low, high > low && r.Of > 0
}

// clampShare keeps a rate between 0 and 1; what is not a number is 0.
func clampShare(f float64) float64 {
	if math.IsNaN(f) {
		return 0
	}
	return min(max(f, 0), 1)
}

// percentWords writes a share in whole percents: "23 percent".
func percentWords(f float64) string { return fmt.Sprintf("%.0f percent", 100*clampShare(f)) }

// DescribeRate says the count, the band and the target.
func DescribeRate(r RateView) string {
	words := r.Label + ": " + r.countWords() + "."
	if low, width, drawn := r.bandShares(); drawn {
		words += fmt.Sprintf(" The band runs from %.0f to %s.", 100*low, percentWords(low+width))
	}
	if r.Target > 0 {
		words += " The target is " + percentWords(r.Target) + "."
	}
	return words
}

// RateLegend lists the marks of a rate bar, or of several: a target that differs
// from bar to bar is named without its number.
func RateLegend(rates ...RateView) []LegendItem {
	var seen, band, varies bool
	var target float64
	for _, r := range rates {
		_, _, drawn := r.bandShares()
		seen, band = seen || r.Of > 0, band || drawn
		if r.Target > 0 {
			varies = varies || target > 0 && target != r.Target
			target = r.Target
		}
	}
	var key []LegendItem
	if seen {
		key = append(key, LegendItem{MarkRate, "the rate seen"})
	}
	if band {
		key = append(key, LegendItem{MarkBand, "where the true rate may lie"})
	}
	switch {
	case varies:
		key = append(key, LegendItem{MarkGoal, "the drill’s target"})
	case target > 0:
		key = append(key, LegendItem{MarkGoal, "target, " + tenWords(target) + " of 10"})
	}
	return key
}
