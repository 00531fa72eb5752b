package advice

import (
	"breakwright/internal/rack"
)

// wingUnseenRule: with makes alone nothing says which way to move, so it takes more
// breaks, and the place search once there are two places.
var wingUnseenRule = patternRule{
	Rule: Rule{
		Name: RuleWingUnseen, Number: "8b",
		Title:     "Wing ball stays up, misses not recorded",
		Pattern:   "The wing ball falls far less often than its target and nobody wrote down what it met.",
		Answer:    "A little in from a place near the side rail, out from a central one; after that the place search leads. Record the misses.",
		LineMeans: "the wing ball's rate, as a share of its target, below which it is far off",
		Source:    UsualPractice,
		StepUnit:  "in of place",
		StepBound: "the first time",
		Numbers:   Numbers{On: true, Line: 0.6, Certainty: 0.95, Onward: 0.8, Step: 2, MinBreaks: 20},
	},
	observe: func(l *analysis, n Numbers) observation {
		t := l.currentTally()
		s := observation{count: t.wingMade, of: t.watched, line: n.Line * l.targets.Wing}
		if l.currentSetup().Spot != rack.CentreOnSpot && l.areMissesKnown() {
			return s // the misses are known: rule 8 speaks
		}
		s.canSettle = true
		s.certainty = certaintyBelow(s.count, s.of, s.line)
		if l.isSoftStroke() && observeShare(t.dry, t.watched, 0.4).certainty >= 0.8 {
			s.certainty = min(s.certainty, 0.5) // so soft that nothing falls: not the place
		}
		if l.isPlaceSearch() {
			s.certainty = l.placeBelief().ProbBelow(float64(distanceOut(l.currentSetup())), l.targets.Wing)
		}
		return s
	},
	proposeChanges: func(l *analysis, n Numbers, s observation) []proposedChange {
		if !l.isPlaceSearch() {
			if measureMisfit(l.currentSetup(), l.kind).place < -4 {
				return []proposedChange{l.moveCueBallOut(n.Step, reasonFirstLook)}
			}
			return []proposedChange{l.moveCueBallOut(-n.Step, reasonFirstLook)}
		}
		next := l.nextPlace()
		return []proposedChange{l.moveCueBallOut(next-float64(distanceOut(l.currentSetup())), reasonSearch)}
	},
}
