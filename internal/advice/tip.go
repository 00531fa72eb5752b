package advice

import "math"

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
