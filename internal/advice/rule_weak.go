package advice

import "math"

// weak: a break that pockets nothing and sends fewer than four balls to a rail
// is a foul in nine-ball (WPA rules of play 2016, 2.3).
var weak = rule{
	Rule: Rule{
		Name: RuleWeak, Number: "2",
		Title:     "Weak breaks",
		Pattern:   "Nothing is pocketed and fewer than four balls reach a rail.",
		Answer:    "Check that the rack is tight; hit fuller; then a notch more speed, only while no ball flies and the stroke is steady.",
		LineMeans: "share of breaks with known rails that are weak",
		Source:    "common practice, no source",
		StepUnit:  "mph",
		Numbers:   Numbers{On: true, Line: 0.2, Certainty: 0.97, Onward: 0.9, Step: 1, MinBreaks: fewest},
	},
	look: func(l *lesson, n Numbers) sight {
		line := n.Line
		if misfitOf(l.setup(), l.kind).speed <= -2 {
			line /= 2 // so little speed is the first suspect
		}
		return share(l.seen().weak, l.seen().weakKnown, line)
	},
	answer: func(l *lesson, n Numbers, s sight) []change {
		if math.Abs(misfitOf(l.setup(), l.kind).contact) >= 1 {
			return []change{l.fuller(0.2, offFull)}
		}
		wild := unsteady.look(l, l.rules.of(unsteady.Rule))
		if l.seen().off > 0 || wild.certainty >= 0.5 {
			return nil
		}
		return []change{l.speedUp(n.Step, plainly)}
	},
}
