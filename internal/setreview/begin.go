package setreview

import (
	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// BeginOn says where a student begins on a table of a kind that is new to them: with
// their best setup on the nearest kind, carried to it in proportion. ok is false when
// they broke on that kind already, or never with that game, so that nothing is to be
// carried. side is the one they break from, "" for that of their latest set.
func BeginOn(history store.History, where advice.Conditions, rules drill.ClubRules) (begin advice.StartingSetup, ok bool) {
	known := false
	for _, set := range history.Sets {
		if set.Kind == where.Kind {
			return begin, false
		}
		if set.Setup.Game == where.Game {
			known = true
			if where.Side == "" {
				where.Side = set.Setup.Side
			}
		}
	}
	if !known {
		return begin, false
	}
	begin = advice.SuggestStart(history.Sets, where, advice.Brief{Rules: AdviserRules(rules)})
	return begin, begin.From != ""
}

// SamePlace reports whether a cue ball stands at the same place for a coach: within a
// quarter of a diamond.
func SamePlace(a, b table.Place, k table.Kind) bool {
	return a.Distance(b) < k.DiamondSpacing()/4
}
