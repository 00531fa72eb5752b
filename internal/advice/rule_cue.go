package advice

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/evidence"
)

// forward: a cue ball that goes on into the rack end wants more draw.
var forwardRule = patternRule{
	Rule: Rule{
		Name: RuleForward, Number: "6",
		Title:     "Cue ball forward",
		Pattern:   "The cue ball stops past the window at the foot end, having gone forward or not come back far enough, or scratches in a foot corner.",
		Answer:    "More draw: the tip a tenth of a radius lower, two tenths if it is most breaks.",
		LineMeans: "share of breaks in which the cue ball goes forward past the window",
		Source:    "common practice, no source",
		StepUnit:  "radius of tip height",
		Numbers:   Numbers{On: true, Line: 0.3, Certainty: 0.95, Onward: 0.8, Step: 0.1, MinBreaks: fewestBreaks},
	},
	observe: func(l *analysis, n Numbers) observation {
		forth, back := l.countForthAndBack()
		return l.unlessWindowIsGood(observeShare(forth, l.currentTally().breaks, l.tipLine(n, inward)).limitCertainty(certaintyCommoner(forth, back)))
	},
	proposeChanges: func(l *analysis, n Numbers, s observation) []proposedChange {
		return l.proposeMoreDraw(l.tipStep(s, n.Step))
	},
}

// backTooFarRule: more draw would send it back faster, not shorter.
var backTooFarRule = patternRule{
	Rule: Rule{
		Name: RuleBackTooFar, Number: "7",
		Title:     "Cue ball back too far",
		Pattern:   "The cue ball comes off the head rail past the window, stops behind the head string, or scratches in a head corner.",
		Answer:    "Less draw: the tip a tenth of a radius higher, two tenths if it is most breaks. With little draw already, a notch less speed.",
		LineMeans: "share of breaks in which the cue ball comes back past the window",
		Source:    "common practice, no source; agrees with a rigid-ball model of the break",
		StepUnit:  "radius of tip height",
		Numbers:   Numbers{On: true, Line: 0.3, Certainty: 0.95, Onward: 0.8, Step: 0.1, MinBreaks: fewestBreaks},
	},
	observe: func(l *analysis, n Numbers) observation {
		forth, back := l.countForthAndBack()
		return l.unlessWindowIsGood(observeShare(back, l.currentTally().breaks, l.tipLine(n, outward)).limitCertainty(certaintyCommoner(back, forth)))
	},
	proposeChanges: func(l *analysis, n Numbers, s observation) []proposedChange {
		return l.proposeLessDraw(l.tipStep(s, n.Step))
	},
}

// countForthAndBack counts the breaks in which the cue ball ended past the window on
// the way forth and on the way back. A cue ball at the foot end that nobody saw
// go there counts as gone forward, except under so much draw that it may well
// have come off the head rail: then it counts as neither, and is asked about.
// When two sets have not answered, it counts as what the draw makes likelier.
func (l *analysis) countForthAndBack() (forth, back int) {
	c := l.currentTally().cue
	forth, back = c.forward+c.scratchFoot, c.back+c.scratchHead
	switch unanswered := l.currentTally().breaks >= 2*fewestBreaks; {
	case unanswered && l.currentSetup().Tip <= muchDraw:
		back += c.lostFoot
	case unanswered || !l.needsCuePath():
		forth += c.lostFoot
	}
	return forth, back
}

// muchDraw is the tip height from which a cue ball at the foot end likelier came
// there off the head rail (computed breaks of package breaksim; a coach's word is
// better).
const muchDraw drill.RadiusFraction = -0.25

// needsCuePath reports whether the draw is such that the cue ball's path cannot be
// told from where it stopped.
func (l *analysis) needsCuePath() bool { return l.currentSetup().Tip <= -0.15 }

// certaintyCommoner is how sure it is that one way is commoner than the other, from a
// flat start.
func certaintyCommoner(one, other int) float64 {
	return evidence.MissBalance{Long: one, Short: other}.ProbLong()
}

// proposeMoreDraw lists the answers to a cue ball that goes forward. The tip comes
// first, unless it is no higher than ordinary and the hit is the likelier cause.
// Less speed is no answer: a softer stroke leaves the cue ball less to come back
// with.
func (l *analysis) proposeMoreDraw(step float64) []proposedChange {
	lower, m := l.moveTip(-step), measureMisfit(l.currentSetup(), l.kind)
	fuller := l.bringContactFuller(0.2, reasonOffFull)
	if math.Abs(m.contact) >= 1.5 && math.Abs(m.contact) > m.tip {
		return []proposedChange{fuller, lower}
	}
	for _, way := range []direction{outward, inward} {
		// Misses on one side and a cue ball thrown the same way: the hit.
		thin := l.missesLean(way) >= 0.9 && l.cueBallThrown(way)
		// So is a wing ball into the foot rail with a cue ball that goes on.
		thin = thin || way == inward && m.tip < tipIsFarOff && l.missesLean(way) >= 0.97
		if thin {
			return []proposedChange{l.shiftContact(-0.2*float64(way), reasonThrown), lower}
		}
	}
	return []proposedChange{lower, fuller}
}

// proposeLessDraw lists the answers to a cue ball that comes back too far.
func (l *analysis) proposeLessDraw(step float64) []proposedChange {
	higher, m := l.moveTip(step), measureMisfit(l.currentSetup(), l.kind)
	if m.speed >= 2 && m.speed > -m.tip || l.currentSetup().Tip >= 0.2 {
		return []proposedChange{l.slowerStroke(reasonTooFast), higher}
	}
	return []proposedChange{higher, l.slowerStroke(reasonAtLimit)}
}

// proposeCalmerBreak is less draw, or a notch less speed.
func (l *analysis) proposeCalmerBreak(why changeReason) []proposedChange {
	if l.currentSetup().Tip < ordinaryTip {
		return []proposedChange{l.raiseTip(0.1, why), l.slowerStroke(why)}
	}
	return []proposedChange{l.slowerStroke(why)}
}

// slowerStroke is a notch less speed, or more: see notches.
func (l *analysis) slowerStroke(why changeReason) proposedChange {
	return l.raiseSpeed(-l.speedReduction(1), why)
}

// speedReduction is how much speed to take off: at least so much, and at least two
// thirds of what is above the ordinary.
func (l *analysis) speedReduction(least float64) float64 {
	return math.Max(least, math.Ceil(measureMisfit(l.currentSetup(), l.kind).speed/1.5))
}
