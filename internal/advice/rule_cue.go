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
		Source:    UsualPractice,
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
		Source:    UsualPractice,
		Support:   "agrees with a rigid-ball model of the break",
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

// What the two rules of the tip's height share. Students whose breaks were
// computed from first principles taught it: their cue balls scatter by feet and
// seldom stop in the window even when nothing is wrong, so a pattern along the
// table is weak evidence against a tip that is ordinary already.

// tipLine is the line of a rule that would move the tip that way: outward is
// higher. A tip that is not off is seldom to blame: more of the breaks must say so
// before it is moved, the less of them the further off it is. Once it is being
// moved that way the case has been made.
func (l *analysis) tipLine(n Numbers, towards direction) float64 {
	if m, any := l.lastChange(); any && m.variable == VaryTip && m.by*float64(towards) > 0 {
		return n.Line
	}
	off := -measureMisfit(l.currentSetup(), l.kind).tip * float64(towards)
	return n.Line + tipBenefit*doubtBenefit(off, tipIsFarOff)
}

const (
	// tipIsFarOff is how far from ordinary, in tenths of a radius, a tip is that
	// may well be to blame.
	tipIsFarOff = 1.5
	// tipBenefit is how much further the line lies for a tip that is not off.
	tipBenefit = 0.2
)

// unlessWindowIsGood keeps a rule of the tip quiet while the cue ball stops in
// the window as often as it should, likelier than not: what leaves it on one
// side then costs less than a change may.
func (l *analysis) unlessWindowIsGood(s observation) observation {
	t := l.currentTally()
	if under := certaintyBelow(t.cue.inWindow, t.breaks, l.targets.Window); under < 0.5 {
		return s.limitCertainty(under)
	}
	return s
}

// tipStep doubles a step when the pattern shows in most breaks.
func (l *analysis) tipStep(s observation, step float64) float64 {
	if float64(s.count) >= 0.6*float64(s.of) {
		return 2 * step
	}
	return step
}

// moveTip raises the tip, or lowers it when by is negative. A step that turns
// back on the last one is half of that one; with less than a tenth of a radius
// left the tip stays.
func (l *analysis) moveTip(by float64) proposedChange {
	c := l.raiseTip(by, reasonPlain)
	if c.variable != VaryTip || !l.reversesLastChange(c) {
		return c
	}
	last, _ := l.lastChange()
	half := math.Floor(math.Abs(last.by)/2*10+0.01) / 10
	if half < 0.1 {
		c.to = l.currentSetup()
		return c
	}
	return l.raiseTip(math.Copysign(half, by), reasonHalfBack)
}
