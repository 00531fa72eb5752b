package advice

import (
	"breakwright/internal/evidence"
	"breakwright/internal/rack"
)

// noShotRule: when the break is good and the next ball still has no shot, the order
// of the rack is what is left to change.
var noShotRule = patternRule{
	mayWait: true,
	Rule: Rule{
		Name: RuleNoShot, Number: "10",
		Title:     "No shot on the lowest ball",
		Pattern:   "The wing ball falls and the cue ball is in the window, but there is no shot on the lowest ball.",
		Answer:    "Swap the next low ball into the slot whose ball most often ends in the head half. One swap at a time.",
		LineMeans: "share of the good breaks without a shot",
		Source:    UsualPractice,
		Numbers:   Numbers{On: true, Line: 0.5, Certainty: 0.95, Onward: 0.95, MinBreaks: 20},
	},
	observe: func(l *analysis, n Numbers) observation {
		return observeShare(l.currentTally().noShot, l.currentTally().shotKnown, n.Line)
	},
	proposeChanges: func(l *analysis, n Numbers, s observation) []proposedChange {
		if c, ok := l.findRackSwap(); ok {
			return []proposedChange{c}
		}
		return nil
	},
}

// findRackSwap finds the one swap that puts the next low ball, the one after the
// head ball, where the student's own breaks send a ball to the head half most
// surely. There is none while the rests are not known.
func (l *analysis) findRackSwap() (proposedChange, bool) {
	s, t := l.currentSetup(), l.currentTally()
	low, ok := s.Order.SlotOf(s.Game, s.HeadBall()+1)
	if !ok || low == s.Wing {
		return proposedChange{}, false
	}
	here := t.slots[low].headHalfBelief()
	var best proposedChange
	found, sure := false, 0.95
	for _, slot := range s.Game.Slots() {
		if slot == low || slot == rack.HeadSlot || slot == s.Wing || t.slots[slot].known < fewestBreaks {
			continue
		}
		c, legal := l.swapBalls(low, slot)
		if p := evidence.ProbBetter(here, t.slots[slot].headHalfBelief()); legal && p >= sure {
			best, found, sure = c, true, p
		}
	}
	return best, found
}

func (e slotEnds) headHalfBelief() evidence.Beta {
	return evidence.BetaFromCounts(e.headHalf, e.known, evidence.JeffreysPrior())
}
