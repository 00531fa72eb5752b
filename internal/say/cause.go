package say

import (
	"fmt"
	"math"
)

// namedCauses are what may be amiss, by the adviser's names, and what answers it.
var namedCauses = map[string]struct{ name, answer string }{
	"nothing":    {"Nothing amiss", "The setup stays."},
	"place":      {"The place, for this table", "The cue ball moves in or out along the head string."},
	"contact":    {"The hit on the head ball, off the line told", "Fuller, or further to one side; or the place, where that is easier."},
	"tip":        {"The tip, higher or lower than told", "More draw, or less."},
	"spin":       {"Side spin that nobody asked for", "The tip back to the middle; told side spin is taken out."},
	"speed":      {"The speed, faster or softer than told", "Softer, or harder."},
	"unsteady":   {"A stroke that is not steady yet", "Softer, until it is; no other change."},
	"loose rack": {"Gaps in the rack", "The rack is checked before anything is changed."},
}

// CauseName names what may be amiss.
func CauseName(cause string) string {
	if words, known := namedCauses[cause]; known {
		return words.name
	}
	return Capitalize(cause)
}

// CauseAnswer says what is done about it.
func CauseAnswer(cause string) string { return namedCauses[cause].answer }

// RoughShare writes a share that is no count, no finer than it is known: "about 6 in
// 10", "less than 1 in 20"; never surer than nine in ten.
func RoughShare(share float64) string {
	switch tenths := int(math.Round(10 * share)); {
	case share < 0.05:
		return "less than 1 in 20"
	case tenths >= 9:
		return "9 in 10 or more"
	default:
		return fmt.Sprintf("about %d in 10", tenths)
	}
}
