package advice

import "math"

// weak: a break that pockets nothing and sends fewer than four balls to a rail
// is a foul in nine-ball (WPA rules of play 2016, 2.3).
var weakBreakRule = patternRule{
	Rule: Rule{
		Name: RuleWeak, Number: "2",
		Title:     "Weak breaks",
		Pattern:   "Nothing is pocketed and fewer than four balls reach a rail; with a soft stroke whose rails nobody counted, most breaks pocket nothing.",
		Answer:    "Check that the rack is tight; hit fuller; then a notch more speed, two if it is most breaks of a soft stroke, only while no ball flies and the stroke is steady.",
		LineMeans: "share of breaks with known rails that are weak",
		Source:    UsualPractice,
		StepUnit:  "mph",
		Numbers:   Numbers{On: true, Line: 0.2, Certainty: 0.97, Onward: 0.9, Step: 1, MinBreaks: fewestBreaks},
	},
	observe: func(l *analysis, n Numbers) observation {
		t, line := l.currentTally(), n.Line
		switch {
		case l.isSoftAndUncounted():
			return observeShare(t.dry, t.watched, mostlyDryLine)
		case l.isSoftStroke():
			line /= 2 // so little speed is the first suspect
		}
		return observeShare(t.weak, t.weakKnown, line)
	},
	proposeChanges: func(l *analysis, n Numbers, s observation) []proposedChange {
		if math.Abs(measureMisfit(l.currentSetup(), l.kind).contact) >= 1 {
			return []proposedChange{l.bringContactFuller(0.2, reasonOffFull)}
		}
		wild := unsteadyRule.observe(l, l.rules.numbersOf(unsteadyRule.Rule))
		if wild.certainty >= 0.5 || measureMisfit(l.currentSetup(), l.kind).speed >= 1 {
			return nil
		}
		step := n.Step
		if below := -measureMisfit(l.currentSetup(), l.kind).speed; float64(s.count) >= 0.5*float64(s.of) && below >= 2*step {
			step *= 2 // most breaks, and still no faster than the ordinary
		}
		c := l.raiseSpeed(step, reasonPlain)
		if l.hasFlyingBallsUpTo(c.to.Speed) {
			return nil
		}
		return []proposedChange{c}
	},
}

// isSoftStroke reports whether the speed is well below the ordinary.
func (l *analysis) isSoftStroke() bool { return measureMisfit(l.currentSetup(), l.kind).speed <= -2 }

// isSoftAndUncounted reports whether, with a soft stroke, nobody counted the balls that
// met a rail in most of the dry breaks.
func (l *analysis) isSoftAndUncounted() bool {
	t := l.currentTally()
	return l.isSoftStroke() && 2*(t.watched-t.weakKnown) > t.dry
}

// mostlyDryLine is the line for a soft break of which nobody counted the rails: when
// nothing drops in most breaks, that little speed is still the first suspect.
const mostlyDryLine = 0.5
