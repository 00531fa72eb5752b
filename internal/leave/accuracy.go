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

// Chance gives the chance that the direction is right within a window of that
// width, aimed at its middle.
func (a Accuracy) Chance(window table.Degrees) float64 {
	return within(window.Radians(), table.Degrees(a).Radians())
}

// within is the share of a normal error of standard deviation sd that falls in a
// window of that width around its mean.
func within(width, sd float64) float64 {
	if !(width > 0) {
		return 0
	}
	return math.Erf(width / (2 * math.Sqrt2 * sd))
}

// Try is a shot that was played: the width of its window and what came of it.
type Try struct {
	Window table.Degrees
	Made   bool
}

// Fit gives the accuracy that tries speak for, starting from a level: the middle
// of what is believed about it (on a scale of ratios) after the tries, when before
// them a ratio of e^0.5 to the level either way is one standard deviation. So a
// few tries move it little, and none leave it where it was. It stays within a
// quarter and four times the level.
func Fit(level Accuracy, tries []Try) Accuracy {
	const steps = 160
	spread, reach := 0.5, math.Log(4)
	total, sum := 0.0, 0.0
	best := math.Inf(-1)
	var logs [steps + 1]float64
	for i := range logs {
		z := reach * (2*float64(i)/steps - 1)
		logs[i] = -z * z / (2 * spread * spread)
		a := Accuracy(float64(level) * math.Exp(z))
		for _, t := range tries {
			logs[i] += math.Log(likelihood(a.Chance(t.Window), t.Made))
		}
		best = max(best, logs[i])
	}
	for i, l := range logs {
		w := math.Exp(l - best)
		total += w
		sum += w * reach * (2*float64(i)/steps - 1)
	}
	return Accuracy(float64(level) * math.Exp(sum/total))
}

// likelihood keeps a hundredth for shots that went otherwise for other reasons, so
// that one miss of a hanging ball says no more than it should.
func likelihood(chance float64, made bool) float64 {
	const otherwise = 0.01
	chance = otherwise + (1-2*otherwise)*chance
	if made {
		return chance
	}
	return 1 - chance
}

func sqrt(v float64) float64 { return math.Sqrt(max(v, 0)) }
