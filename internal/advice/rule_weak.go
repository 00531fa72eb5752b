package advice

import "math"

// weak: a break that pockets nothing and sends fewer than four balls to a rail
// is a foul in nine-ball (WPA rules of play 2016, 2.3).
var weak = rule{
	Rule: Rule{
		Name: RuleWeak, Number: "2",
		Title:     "Weak breaks",
		Pattern:   "Nothing is pocketed and fewer than four balls reach a rail; with a soft stroke whose rails nobody counted, most breaks pocket nothing.",
		Answer:    "Check that the rack is tight; hit fuller; then a notch more speed, two if it is most breaks of a soft stroke, only while no ball flies and the stroke is steady.",
		LineMeans: "share of breaks with known rails that are weak",
		Source:    "common practice, no source",
		StepUnit:  "mph",
		Numbers:   Numbers{On: true, Line: 0.2, Certainty: 0.97, Onward: 0.9, Step: 1, MinBreaks: fewest},
	},
	look: func(l *lesson, n Numbers) sight {
		t, line := l.seen(), n.Line
		switch {
		case l.softAndUncounted():
			return share(t.dry, t.breaks, mostlyDry)
		case l.soft():
			line /= 2 // so little speed is the first suspect
		}
		return share(t.weak, t.weakKnown, line)
	},
	answer: func(l *lesson, n Numbers, s sight) []change {
		if math.Abs(misfitOf(l.setup(), l.kind).contact) >= 1 {
			return []change{l.fuller(0.2, offFull)}
		}
		wild := unsteady.look(l, l.rules.of(unsteady.Rule))
		if l.seen().off > 0 || wild.certainty >= 0.5 {
			return nil
		}
		step := n.Step
		if below := -misfitOf(l.setup(), l.kind).speed; float64(s.count) >= 0.5*float64(s.of) && below >= 2*step {
			step *= 2 // most breaks, and still no faster than the ordinary
		}
		return []change{l.speedUp(step, plainly)}
	},
}

// soft says whether the speed is well below the ordinary.
func (l *lesson) soft() bool { return misfitOf(l.setup(), l.kind).speed <= -2 }

// softAndUncounted says whether, with a soft stroke, nobody counted the balls that
// met a rail in most of the dry breaks.
func (l *lesson) softAndUncounted() bool {
	t := l.seen()
	return l.soft() && 2*(t.breaks-t.weakKnown) > t.dry
}

// mostlyDry is the line for a soft break of which nobody counted the rails: when
// nothing drops in most breaks, that little speed is still the first suspect.
const mostlyDry = 0.5
