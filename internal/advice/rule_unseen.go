package advice

import (
	"breakwright/internal/rack"
)

// wingUnseen: with makes alone nothing says which way to move, so it takes more
// breaks, and the place search once there are two places.
var wingUnseen = rule{
	Rule: Rule{
		Name: RuleWingUnseen, Number: "8b",
		Title:     "Wing ball stays up, misses not recorded",
		Pattern:   "The wing ball falls far less often than its target and nobody wrote down what it met.",
		Answer:    "A little in from a place near the side rail, out from a central one; after that the place search leads. Record the misses.",
		LineMeans: "the wing ball's rate, as a share of its target, below which it is far off",
		Source:    "common practice, no source",
		StepUnit:  "in of place, the first time",
		Numbers:   Numbers{On: true, Line: 0.6, Certainty: 0.95, Onward: 0.8, Step: 2, MinBreaks: 20},
	},
	look: func(l *lesson, n Numbers) sight {
		t := l.seen()
		s := sight{count: t.wingMade, of: t.breaks, line: n.Line * l.targets.Wing}
		if l.setup().Spot != rack.CentreOnSpot && l.missesKnown() {
			return s // the misses are known: rule 8 speaks
		}
		s.open = true
		s.certainty = below(s.count, s.of, s.line)
		if l.soft() && share(t.dry, t.breaks, 0.4).certainty >= 0.8 {
			s.certainty = min(s.certainty, 0.5) // so soft that nothing falls: not the place
		}
		if l.searching() {
			s.certainty = l.placeBelief().ProbBelow(float64(out(l.setup())), l.targets.Wing)
		}
		return s
	},
	answer: func(l *lesson, n Numbers, s sight) []change {
		if !l.searching() {
			if misfitOf(l.setup(), l.kind).place < -4 {
				return []change{l.moveOut(n.Step, firstLook)}
			}
			return []change{l.moveOut(-n.Step, firstLook)}
		}
		next := l.nextPlace()
		return []change{l.moveOut(next-float64(out(l.setup())), search)}
	},
}
