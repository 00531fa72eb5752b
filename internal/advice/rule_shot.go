package advice

import (
	"breakwright/internal/evidence"
	"breakwright/internal/rack"
)

// noShot: when the break is good and the next ball still has no shot, the order
// of the rack is what is left to change.
var noShot = rule{
	patient: true,
	Rule: Rule{
		Name: RuleNoShot, Number: "10",
		Title:     "No shot on the lowest ball",
		Pattern:   "The wing ball falls and the cue ball is in the window, but there is no shot on the lowest ball.",
		Answer:    "Swap the next low ball into the slot whose ball most often ends in the head half. One swap at a time.",
		LineMeans: "share of the good breaks without a shot",
		Source:    "common practice, no source",
		Numbers:   Numbers{On: true, Line: 0.5, Certainty: 0.95, Onward: 0.95, MinBreaks: 20},
	},
	look: func(l *lesson, n Numbers) sight {
		return share(l.seen().noShot, l.seen().shotKnown, n.Line)
	},
	answer: func(l *lesson, n Numbers, s sight) []change {
		if c, ok := l.rackPlan(); ok {
			return []change{c}
		}
		return nil
	},
}

// rackPlan finds the one swap that puts the next low ball, the one after the
// head ball, where the student's own breaks send a ball to the head half most
// surely. There is none while the rests are not known.
func (l *lesson) rackPlan() (change, bool) {
	s, t := l.setup(), l.seen()
	low, ok := s.Order.SlotOf(s.Game, s.Head()+1)
	if !ok || low == s.Wing {
		return change{}, false
	}
	here := t.slots[low].belief()
	var best change
	found, sure := false, 0.95
	for _, slot := range s.Game.Slots() {
		if slot == low || slot == rack.Head || slot == s.Wing || t.slots[slot].known < fewest {
			continue
		}
		c, legal := l.swap(low, slot)
		if p := evidence.Better(here, t.slots[slot].belief()); legal && p >= sure {
			best, found, sure = c, true, p
		}
	}
	return best, found
}

func (e ends) belief() evidence.Beta {
	return evidence.FromCounts(e.headHalf, e.known, evidence.JeffreysPrior())
}
