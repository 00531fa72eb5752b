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

// JudgeByHouse adds to each line what the break did not keep of the house rules,
// and gives how many kept them and how many it is known of.
func JudgeByHouse(lines []BreakLine, breaks []drill.Break, s drill.Setup, h drill.HouseRules) (kept, known int) {
	for i, b := range breaks {
		broken := h.Broken(s, b)
		lines[i].House = strings.Join(broken, "; ")
		switch {
		case len(broken) > 0:
			known++
		case !h.ThreePoints || b.ThreePoints().Known:
			kept, known = kept+1, known+1
		}
	}
	return kept, known
}

// HouseCountWords says how many of the breaks kept the house rules; "" where the
// room has none.
func HouseCountWords(h drill.HouseRules, kept, known, breaks int) string {
	if h == (drill.HouseRules{}) {
		return ""
	}
	says := "House rules kept in " + say.OfTotal(kept, known) + "."
	if known < breaks {
		says += " Not known of " + say.OfTotal(breaks-known, breaks) + ": the balls past the head string were not counted."
	}
	return says
}
