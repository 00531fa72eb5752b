package say

import (
	"fmt"
	"math"
)

// causeInWords is what is said of something that may be amiss.
type causeInWords struct {
	// name heads a line, answer says what is done about it.
	name, answer string
	// rival goes on "it could also be", sound on "it best tells"; empty for nothing.
	rival, sound string
}

// causes are what may be amiss, by the adviser's names.
var causes = map[string]causeInWords{
	"nothing": {name: "Nothing amiss", answer: "The setup stays."},
	"place": {
		"The place, for this table", "The cue ball moves in or out along the head string.",
		"the place", "whether this table wants another place",
	},
	"contact": {
		"The head ball, not hit where it was aimed", "Fuller, or further to one side; or the place, where that is easier.",
		"the hit on the head ball", "whether the head ball is hit where it was aimed",
	},
	"tip": {
		"The tip, higher or lower than asked", "More draw, or less.",
		"the height of the tip", "whether the tip strikes at the height asked for",
	},
	"spin": {
		"Side spin that nobody asked for", "The tip back to the middle; side spin that was asked for is taken out.",
		"side spin", "whether there is side spin that nobody asked for",
	},
	"speed": {
		"The speed, faster or softer than asked", "Softer, or harder.",
		"the speed", "whether the speed is the one asked for",
	},
	"unsteady": {
		"A stroke that is not steady yet", "Softer, until it is; no other change.",
		"a stroke that is not steady yet", "whether the stroke is steady",
	},
	"loose rack": {
		name: "Gaps in the rack", answer: "The rack is checked before anything is changed.",
		rival: "the rack: check it before the next ten",
	},
}

// NamesRival reports whether a cause has words as what else it could be.
func NamesRival(cause string) bool { return causes[cause].rival != "" }

// CauseName names what may be amiss.
func CauseName(cause string) string {
	if words, known := causes[cause]; known {
		return words.name
	}
	return Capitalize(cause)
}

// CauseAnswer says what is done about it.
func CauseAnswer(cause string) string { return causes[cause].answer }

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
