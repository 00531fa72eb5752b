package leave

import (
	"math"

	"breakwright/internal/table"
)

// Accuracy is how well a player sends the cue ball where it is meant to go: the
// standard deviation of its direction. It takes in the aim, the stroke, and what
// is left of throw and squirt after allowing for them.
type Accuracy table.Degrees

// Accuracies by level (common practice, no source; set so that a straight shot
// of 3 feet to the object ball and 3 feet on to the middle of a corner of 4.5 in
// goes down about 3, 5, 7 and 9 times in ten). Tournaments of computer players
// were held with an error of 0.125 degrees, meant as a strong amateur's (Smith
// 2007, Artificial Intelligence 171; from memory).
const (
	Beginner Accuracy = 0.35
	Club     Accuracy = 0.20
	Strong   Accuracy = 0.13
	Expert   Accuracy = 0.08
)

// Levels names the accuracies, the least first.
func Levels() []Level {
	return []Level{{"beginner", Beginner}, {"club", Club}, {"strong", Strong}, {"expert", Expert}}
}

// Level is a word for an accuracy.
type Level struct {
	Name     string
	Accuracy Accuracy
}

// ParseLevel finds a level by its name, and false if there is none.
func ParseLevel(name string) (Level, bool) {
	for _, l := range Levels() {
		if l.Name == name {
			return l, true
		}
	}
	return Level{}, false
}

// shareWithin is the share of a normal error of standard deviation sd that falls in a
// window of that width around its mean.
func shareWithin(width, sd float64) float64 {
	if !(width > 0) {
		return 0
	}
	return math.Erf(width / (2 * math.Sqrt2 * sd))
}

func sqrt(v float64) float64 { return math.Sqrt(max(v, 0)) }
