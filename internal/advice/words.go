package advice

import (
	"strconv"
	"strings"
)

// Every sentence of the adviser is composed in this file and its neighbours
// named words. Short sentences, trade words, never more certain than the data.

const nothingYet = "Nothing has been recorded yet. The first ten breaks begin it."

// standingCautions are shown with every drill.
var standingCautions = []string{
	"Warm up first, and rest between sets. Stop at any pain in back, shoulder or wrist.",
	"Nobody stands at the foot end, or beside the table in line with the break.",
	"Balls can fly: a level cue, a speed you control. Minors break with an adult there.",
	"Full-power breaks are for a few sets, not for all evening. This is coaching help, no medical advice.",
}

// adviceWriter puts one decision into sentences, for a student on one side.
type adviceWriter struct {
	*analysis
	decision decision
	// mirror says that the student breaks from the right: numbers that point
	// left or right are turned, sentences speak of the break side.
	mirror bool
}

func newAdviceWriter(l *analysis, d decision, mirror bool) adviceWriter {
	return adviceWriter{l, d, mirror}
}

// countInWords writes a whole number, in letters up to ten.
func countInWords(n int) string {
	letters := []string{"none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}
	if n >= 0 && n < len(letters) {
		return letters[n]
	}
	return strconv.Itoa(n)
}

// countOfTotal writes "three of ten", or "3 of 20" when one of them is beyond ten.
func countOfTotal(k, n int) string {
	if n > 10 {
		return strconv.Itoa(k) + " of " + strconv.Itoa(n)
	}
	return countInWords(k) + " of " + countInWords(n)
}

// countOfThings writes "seven of the nine misses", "both misses" or "all seven misses".
func countOfThings(k, n int, things string) string {
	switch {
	case k == n && n == 2:
		return "both " + things
	case k == n && n > 2:
		return "all " + countInWords(n) + " " + things
	case n > 10:
		return strconv.Itoa(k) + " of the " + strconv.Itoa(n) + " " + things
	}
	return countInWords(k) + " of the " + countInWords(n) + " " + things
}

// capitalizeFirst makes the first letter a capital.
func capitalizeFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// inNextTen writes a rate as what to look for.
func inNextTen(rate float64) string {
	switch k := int(rate*10 + 0.5); {
	case k <= 1:
		return "one or two of the next ten"
	case k == 5:
		return "about half of the next ten"
	case k >= 9:
		return "nearly all of the next ten"
	default:
		return "about " + countInWords(k) + " of the next ten"
	}
}

// formatDecimal writes a number in its shortest form.
func formatDecimal[T ~float64](v T) string { return strconv.FormatFloat(float64(v), 'f', -1, 64) }

// formatInches writes a length: "one inch", "four inches", "2.5 inches".
func formatInches(v float64) string {
	if v == 1 {
		return "one inch"
	}
	if whole := int(v); float64(whole) == v && whole <= 10 {
		return countInWords(whole) + " inches"
	}
	return formatDecimal(v) + " inches"
}
