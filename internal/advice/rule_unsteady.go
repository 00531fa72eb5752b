package advice

import (
	"math"

	"breakwright/internal/evidence"
)

// unsteady: when everything scatters, no change of place can be read from it.
var unsteadyRule = patternRule{
	Rule: Rule{
		Name: RuleUnsteady, Number: "9",
		Title:     "Everything scatters",
		Pattern:   "Neither the wing ball nor the cue ball comes good, and both miss both ways.",
		Answer:    "A notch less speed, the same setup, ten more: control before power. At an ordinary speed it takes more breaks; without a known speed, or with the misses unseen, it is not said.",
		LineMeans: "share of breaks with neither the wing ball made nor the cue ball in the window",
		Source:    UsualPractice,
		StepUnit:  "mph",
		Numbers:   Numbers{On: true, Line: 0.4, Certainty: 0.95, Onward: 0.9, Step: 1, MinBreaks: fewestBreaks},
	},
	observe: func(l *analysis, n Numbers) observation {
		t, over := l.currentTally(), measureMisfit(l.currentSetup(), l.kind).speed
		// The more speed, the sooner control is the first suspect.
		line := n.Line + 0.05
		if over >= 1 {
			line = n.Line * (1 - min(0.1*over, 0.3))
		}
		s := observeShare(t.lost, t.watched, line)
		if over >= 1 {
			// Both surely well under their targets says the same in another way.
			s.certainty = max(s.certainty, combineCertainties(
				certaintyBelow(t.wingMade, t.watched, wellUnderTarget*l.targets.Wing),
				certaintyBelow(t.cue.inWindow, t.breaks, wellUnderTarget*l.targets.Window)))
		}
		if l.isOneSided() || l.speedUnknown || over < 1 && !l.areMissesKnown() {
			s.certainty = min(s.certainty, 0.5)
		}
		return s
	},
	proposeChanges: func(l *analysis, n Numbers, s observation) []proposedChange {
		return []proposedChange{l.raiseSpeed(-l.speedReduction(n.Step), reasonPlain)}
	},
}

// combineCertainties is how sure two findings are that say the same: as sure as the two
// doubts' geometric mean, while neither is much in doubt by itself.
func combineCertainties(one, other float64) float64 {
	if min(one, other) < 0.8 {
		return min(one, other)
	}
	return 1 - math.Sqrt((1-one)*(1-other))
}

// wellUnderTarget is the share of a target below which a rate is well under it.
const wellUnderTarget = 0.85

// isOneSided reports whether the misses, or the cue ball, go astray mostly one way:
// then there is a cause to look for, not unsteadiness.
func (l *analysis) isOneSided() bool {
	t := l.currentTally()
	if m := l.directedMisses(); isMostlyOneWay(m.Long, m.Total()) || isMostlyOneWay(m.Short, m.Total()) {
		return true
	}
	if l.cueBallThrown(outward) || l.cueBallThrown(inward) {
		return true
	}
	forth, back := l.countForthAndBack()
	across := t.cue.wide + t.cue.scratchFar + t.cue.scratchNear
	all := forth + back + across
	return isMostlyOneWay(forth, all) || isMostlyOneWay(back, all)
}

func isMostlyOneWay(count, of int) bool {
	return evidence.BetaFromCounts(count, of, evidence.UniformPrior()).ProbAbove(0.6) >= 0.9
}
