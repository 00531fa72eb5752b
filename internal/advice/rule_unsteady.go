package advice

import (
	"math"

	"breakwright/internal/evidence"
)

// unsteady: when everything scatters, no change of place can be read from it.
var unsteady = rule{
	Rule: Rule{
		Name: RuleUnsteady, Number: "9",
		Title:     "Everything scatters",
		Pattern:   "Neither the wing ball nor the cue ball comes good, and both miss both ways.",
		Answer:    "A notch less speed, the same setup, ten more: control before power. At an ordinary speed it takes more breaks; without a known speed, or with the misses unseen, it is not said.",
		LineMeans: "share of breaks with neither the wing ball made nor the cue ball in the window",
		Source:    "common practice, no source",
		StepUnit:  "mph",
		Numbers:   Numbers{On: true, Line: 0.4, Certainty: 0.95, Onward: 0.9, Step: 1, MinBreaks: fewest},
	},
	look: func(l *lesson, n Numbers) sight {
		t, over := l.seen(), misfitOf(l.setup(), l.kind).speed
		// The more speed, the sooner control is the first suspect.
		line := n.Line + 0.05
		if over >= 1 {
			line = n.Line * (1 - min(0.1*over, 0.3))
		}
		s := share(t.lost, t.breaks, line)
		if over >= 1 {
			// Both surely well under their targets says the same in another way.
			s.certainty = max(s.certainty, together(
				below(t.wingMade, t.breaks, wellUnder*l.targets.Wing),
				below(t.cue.inWindow, t.breaks, wellUnder*l.targets.Window)))
		}
		if l.oneSided() || l.ownSpeed || over < 1 && !l.missesKnown() {
			s.certainty = min(s.certainty, 0.5)
		}
		return s
	},
	answer: func(l *lesson, n Numbers, s sight) []change {
		return []change{l.speedUp(-l.notches(n.Step), plainly)}
	},
}

// together is how sure two findings are that say the same: as sure as the two
// doubts' geometric mean, while neither is much in doubt by itself.
func together(one, other float64) float64 {
	if min(one, other) < 0.8 {
		return min(one, other)
	}
	return 1 - math.Sqrt((1-one)*(1-other))
}

// wellUnder is the share of a target below which a rate is well under it.
const wellUnder = 0.85

// oneSided says whether the misses, or the cue ball, go astray mostly one way:
// then there is a cause to look for, not unsteadiness.
func (l *lesson) oneSided() bool {
	t := l.seen()
	if m := l.telling(); oneWay(m.Long, m.Total()) || oneWay(m.Short, m.Total()) {
		return true
	}
	if l.cueBallThrown(outward) || l.cueBallThrown(inward) {
		return true
	}
	forth, back := l.alongCounts()
	across := t.cue.wide + t.cue.scratchFar + t.cue.scratchNear
	all := forth + back + across
	return oneWay(forth, all) || oneWay(back, all)
}

func oneWay(count, of int) bool {
	return evidence.FromCounts(count, of, evidence.Uniform()).ProbAbove(0.6) >= 0.9
}
