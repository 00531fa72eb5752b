package advice

import (
	"slices"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// listSingleChanges lists every change of one part that is looked at.
func (l *analysis) listSingleChanges() []proposedChange {
	list := make([]proposedChange, 0, 40)
	add := func(c proposedChange) {
		if c.to == l.currentSetup() {
			return
		}
		for _, known := range list {
			if known.to == c.to {
				return
			}
		}
		list = append(list, c)
	}
	for _, sign := range []float64{1, -1} {
		for _, inches := range []float64{1, 2, 3, 4, 6, 8, 10} {
			add(l.moveCueBallOut(sign*inches, reasonPlain))
		}
		for tenths := 1; tenths <= 5; tenths++ {
			add(l.shiftContact(sign*float64(tenths)/10, reasonPlain))
			add(l.raiseTip(sign*float64(tenths)/10, reasonPlain))
		}
	}
	if !l.speedUnknown {
		for _, mph := range []float64{6, 4, 3, 2, 1, -1, -2, -3, -4, -6} {
			if c := l.raiseSpeed(mph, reasonPlain); mph <= mostForceAtOnce || c.to.Speed <= fastBreak {
				add(c)
			}
		}
	}
	if l.currentSetup().Spin != 0 {
		s := l.currentSetup()
		s.Spin = 0
		add(l.dropIfNegligible(-float64(l.currentSetup().Spin), proposedChange{VarySpin, s, reasonPlain}))
	}
	return list
}

// mostForceAtOnce is how many miles an hour a break is made faster by at once, where it then
// is a fast one (common practice, no source).
const mostForceAtOnce = 3

// isExcluded reports whether a change may not be told: its rule is off or
// overruled, it was tried and found worse, or it takes more speed, or a higher tip, where
// balls fly.
func (l *analysis) isExcluded(c proposedChange) bool {
	name := ruleForChange(c, l.currentSetup())
	if !l.rules.numbersOf(ruleNamed(name).Rule).On || l.isPointOverruled(c, name) {
		return true
	}
	if up := partDifference(c.variable, l.currentSetup(), c.to) > 0; up {
		switch {
		case c.variable == VarySpeed && l.hasFlyingBallsUpTo(c.to.Speed), c.variable == VaryTip && l.isTipTooHigh(float64(c.to.Tip)):
			return true
		}
	}
	return l.hurtBefore(c, l.undoCertainty()) || l.wasTriedAndWorse(c)
}

// hasFlyingBallsUpTo reports whether a ball flew under the present setup, or under one
// with more speed than that and no more than a change leads to.
func (l *analysis) hasFlyingBallsUpTo(speed table.Mph) bool {
	return slices.ContainsFunc(l.records, func(r *setupRecord) bool {
		between := r.setup.Speed > l.currentSetup().Speed && r.setup.Speed <= speed
		return r.tally.off > 0 && (between || r == l.currentRecord())
	})
}

// isTipTooHigh reports whether a tip is told too high, of a stroke that may strike lower
// than it is told.
func (l *analysis) isTipTooHigh(instructed float64) bool {
	return instructed > highestInstructedTip || instructed > highestTip && instructed+l.hands.MeanTipOffset() > highestTip
}

// isPointOverruled reports whether the coach has decided against the point that
// a change makes. Place and contact make the same one: both turn the wing ball.
func (l *analysis) isPointOverruled(c proposedChange, name RuleName) bool {
	if c.variable == VaryPlace || c.variable == VaryContact {
		return l.isOverruled(RuleMissBalance) || l.isOverruled(RuleThrownWide)
	}
	return l.isOverruled(name)
}

// wasTriedAndWorse reports whether the setup was played before and is worse than
// the present one by its own breaks, with a certainty of 0.8.
func (l *analysis) wasTriedAndWorse(c proposedChange) bool {
	for _, r := range l.records {
		if r == l.currentRecord() || !r.setup.SameAs(c.to) || r.tally.breaks < fewestBreaks {
			continue
		}
		worse := compareTallies(&l.currentRecord().tally, &r.tally, worthMeasure, smallestEffect)
		return worse.Hurt+worse.NoDifference/2 >= 0.8
	}
	return false
}

// ruleForChange names the rule in whose language a change is told.
func ruleForChange(c proposedChange, from drill.Setup) RuleName {
	up := partDifference(c.variable, from, c.to) > 0
	switch c.variable {
	case VaryPlace:
		return RuleMissBalance
	case VaryContact, VarySpin:
		return RuleThrownWide
	case VaryTip:
		if up {
			return RuleBackTooFar
		}
		return RuleForward
	case VarySpeed:
		if up {
			return RuleWeak
		}
		return RuleUnsteady
	}
	return RuleNoShot
}

// ruleNamed finds a pattern rule by its name.
func ruleNamed(name RuleName) *patternRule {
	for i := range patternRules {
		if patternRules[i].Name == name {
			return &patternRules[i]
		}
	}
	panic("advice: no rule " + string(name))
}
