package component

import (
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/say"
)

// HouseRuleWords says which rules the room plays beyond the rule book; "" for
// none.
func HouseRuleWords(h drill.HouseRules, u say.Units) string {
	var rules []string
	if h.ThreePoints {
		rules = append(rules, "three balls pocketed or past the head string")
	}
	if h.BreakBox > 0 {
		rules = append(rules, "the cue ball at most "+u.WithShort(say.Place, float64(h.BreakBox))+" from the long string")
	}
	if len(rules) == 0 {
		return ""
	}
	return "House rules: " + strings.Join(rules, "; ") + "."
}

// JudgeByHouse adds to each line what the break did not keep of the house rules.
func JudgeByHouse(lines []BreakLine, breaks []drill.Break, s drill.Setup, h drill.HouseRules) {
	for i, b := range breaks {
		lines[i].House = strings.Join(h.Broken(s, b), "; ")
	}
}

// HouseCountWords says how many breaks under a setup kept the house rules, and why it is
// not known of the others; "" where the room has none.
func HouseCountWords(h drill.HouseRules, s drill.Setup, breaks []drill.Break) string {
	if h == (drill.HouseRules{}) {
		return ""
	}
	kept, notCounted, leftOpen := 0, 0, 0
	for _, b := range breaks {
		switch {
		case len(h.Broken(s, b)) > 0:
		case !h.ThreePoints || b.ThreePoints().Known:
			kept++
		case b.PastString == nil:
			notCounted++
		default:
			leftOpen++
		}
	}
	var why []string
	if notCounted > 0 {
		why = append(why, "the balls past the head string were not counted")
	}
	if leftOpen > 0 {
		why = append(why, "what was counted leaves it open, as a ball that crossed the string may be one that dropped")
	}
	unknown := notCounted + leftOpen
	says := "House rules kept in " + say.OfTotal(kept, len(breaks)-unknown) + "."
	if unknown > 0 {
		says += " Not known of " + say.OfTotal(unknown, len(breaks)) + ": " + strings.Join(why, ", or ") + "."
	}
	return says
}
