package advice

import "breakwright/internal/rack"

// headBallRule: off as it comes. Where the head ball rests is a doubtful witness of
// where it passed, so a club turns this on when it watches for it.
var headBallRule = patternRule{
	Rule: Rule{
		Name: RuleHeadBall, Number: "11",
		Title:     "Head ball passes the side pocket long",
		Pattern:   "The head ball goes past the far side pocket on the foot side, while the wing ball is fine.",
		Answer:    "Contact a tenth of an inch away from the break side. Never at the cost of the wing ball.",
		LineMeans: "share of breaks with a known head ball that goes long",
		Source:    UsualPractice,
		Support:   "off until a club watches for it",
		StepUnit:  "in of contact",
		Numbers:   Numbers{On: false, Line: 0.6, Certainty: 0.95, Onward: 0.9, Step: 0.1, MinBreaks: 20},
	},
	observe: func(l *analysis, n Numbers) observation {
		t := l.currentTally()
		s := observeShare(t.head.long, t.head.known, n.Line)
		if l.currentSetup().Spot == rack.CentreOnSpot {
			s.certainty, s.canSettle = 0, false
		}
		fine := observeShare(t.wingMade, t.watched, 0.8*l.targets.Wing).certainty
		if fine < 0.8 {
			s = s.limitCertainty(fine)
		}
		return s
	},
	proposeChanges: func(l *analysis, n Numbers, s observation) []proposedChange {
		return []proposedChange{l.shiftContact(n.Step, reasonPlain)}
	},
}
