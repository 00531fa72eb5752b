package advice

import "math"

// limits: a setup beyond what is taught is brought back before anything else is
// tried from it, however few the breaks.
var limitsRule = patternRule{
	Rule: Rule{
		Name:    RuleLimits,
		Title:   "Setup beyond the limits",
		Pattern: "The setup that was played lies beyond what is taught on this table.",
		Answer:  "The nearest setup inside: the cue ball a ball's width off the side rail, the tip short of a miscue, 14 to 24 mph.",
		Source:  UsualPractice,
		Numbers: Numbers{On: true, Certainty: 0.97, Onward: 0.97},
	},
	observe: func(l *analysis, n Numbers) observation {
		s := observation{of: l.currentTally().breaks}
		if _, beyond := l.beyondLimits(); beyond {
			s.count, s.certainty = s.of, 1
		}
		return s
	},
	proposeChanges: func(l *analysis, n Numbers, s observation) []proposedChange {
		part, _ := l.beyondLimits()
		return []proposedChange{{variable: part, to: withinLimits(l.currentSetup(), l.kind)}}
	},
}

// slackOfLimits is how far beyond a limit a part may lie before it is brought
// back as a change of its own, in the part's own unit: as finely as a hand and a tape
// measure go, so that nobody's one change is spent on it.
var slackOfLimits = map[Variable]float64{
	VarySpeed: 0.5, VaryTip: 0.05, VaryPlace: 0.5, VaryContact: 0.05, VarySpin: 0.05,
}

// beyondLimits names the first part of the setup that lies clearly beyond the
// limits, the most dangerous first.
func (l *analysis) beyondLimits() (Variable, bool) {
	inside := withinLimits(l.currentSetup(), l.kind)
	for _, part := range []Variable{VarySpeed, VaryTip, VaryPlace, VaryContact, VarySpin} {
		if math.Abs(partDifference(part, l.currentSetup(), inside)) > slackOfLimits[part] {
			return part, true
		}
	}
	return VaryNone, false
}
