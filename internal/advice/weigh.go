package advice

import (
	"breakwright/internal/belief"
	"breakwright/internal/drill"
	"breakwright/internal/response"
)

// The rules are the coach's language: a pattern, one change, a reason. Which
// change is told is weighed by package belief over everything that was seen, for
// every single change within the limits; the patterns speak where it finds none,
// and never against it.

// What a change must promise before it is told (choices of this program; their
// effect is in internal/rehearsal/REHEARSAL.md).
const (
	// certainHelp is the chance that a change helps, and most harm the chance that
	// it harms.
	certainHelp = 0.8
	mostHarm    = 0.1
	// certainTurn is asked of a change that turns the last one back, so that a
	// student is not sent to and fro.
	certainTurn = 0.92
	// worthTelling is the least expected gain in worth, a break.
	worthTelling = 0.09
	// looseRackFirst is how likely a loose rack must be before it is checked
	// ahead of any change.
	looseRackFirst = 0.4
	// highestTip is how far above centre a tip is ever raised: a high tip under a
	// raised cue makes balls fly (common practice, no source).
	highestTip = 0.1
	// A pattern's answer is held back from forbiddenHarm chance of harm on, and
	// when most likely nothing is amiss; of breaks stranger than strangeBreaks, like nothing that
	// was computed, only when harm is likelier than not.
	forbiddenHarm = 0.3
	likelyNothing = 0.5
	strangeBreaks = 1.5
)

// believe weighs everything that was seen under every setup of the pool.
func (l *analysis) believe() {
	setup := l.currentSetup()
	hands, known := belief.NewStudent(response.Rack{Game: setup.Game, Spot: setup.Spot})
	if !known {
		return
	}
	for _, r := range l.records {
		var breaks []drill.Break
		for _, set := range r.played {
			breaks = append(breaks, leftFrameBreaks(set, l.mirror)...)
		}
		hands.Observe(l.kind, r.setup, breaks)
	}
	l.hands = hands
}

// leftFrameBreaks gives the breaks of a set as from the left.
func leftFrameBreaks(set drill.Set, mirror bool) []drill.Break {
	if !mirror {
		return set.Breaks
	}
	turned := make([]drill.Break, len(set.Breaks))
	for i, b := range set.Breaks {
		turned[i] = b.Mirror()
	}
	return turned
}

// applyBelief tells the best change that is sure enough, or asks for the rack to
// be checked where that explains as much.
func (l *analysis) applyBelief(d *decision) {
	if l.hands == nil || l.currentTally().breaks < fewestBreaks {
		return
	}
	d.causes = l.hands.CauseShares()
	best, found := l.bestChange()
	switch {
	case !found:
	case l.hands.ShareOf(belief.LooseRack) >= looseRackFirst:
		d.checkRack = true
	case d.change == nil:
		d.change, d.cause = &best.proposedChange, causeOf[best.variable]
		d.chosenRule = ruleNamed(ruleForChange(best.proposedChange, l.currentSetup()))
		d.chosenObservation = d.observations[d.chosenRule.Name]
	}
	if d.change == nil && l.hands.ShareOf(belief.LooseRack) >= looseRackFirst {
		d.checkRack = true
	}
}

// weighedChange is a change with what it would bring.
type weighedChange struct {
	proposedChange
	effect belief.Effect
	score  float64
}

// bestChange gives the change of most expected gain among those that are sure
// enough; what is likelier to be the cause, and what is easier to do, goes first
// among equals.
func (l *analysis) bestChange() (best weighedChange, found bool) {
	for _, c := range l.listSingleChanges() {
		if l.isExcluded(c) {
			continue
		}
		e := l.hands.Compare(belief.StandardWeights(), l.kind, l.currentSetup(), c.to)
		need := certainHelp
		if l.reversesLastChange(c) {
			need = certainTurn
		}
		if e.Help < need || e.Harm > mostHarm || e.Gain < worthTelling {
			continue
		}
		score := e.Gain * (easeOf[c.variable] + causeBonus*l.hands.ShareOf(causeOf[c.variable]))
		if score > best.score {
			best, found = weighedChange{c, e, score}, true
		}
	}
	return best, found
}

// easeOf prefers, among changes that promise as much, what a student can do more
// surely: the place can be measured, the tip and the hit only felt (common
// practice, no source).
var easeOf = map[Variable]float64{
	VaryPlace: 0.92, VarySpin: 0.92, VaryTip: 0.9, VaryContact: 0.88, VarySpeed: 0.88,
}

// causeBonus is how much a change of the part that is amiss is preferred to one
// that makes up for it.
const causeBonus = 0.25

// causeOf names the cause that a change of a part answers.
var causeOf = map[Variable]belief.Cause{
	VaryPlace: belief.Place, VaryContact: belief.Contact, VaryTip: belief.Tip,
	VarySpin: belief.Spin, VarySpeed: belief.Speed,
}

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
		if !l.speedUnknown {
			for _, mph := range []float64{1, 2, 3, 4, 6} {
				add(l.raiseSpeed(sign*mph, reasonPlain))
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

// isExcluded reports whether a change may not be told: its rule is off or
// overruled, it was tried and found worse, or it takes more speed while balls fly.
func (l *analysis) isExcluded(c proposedChange) bool {
	name := ruleForChange(c, l.currentSetup())
	if !l.rules.numbersOf(ruleNamed(name).Rule).On || l.isPointOverruled(c, name) {
		return true
	}
	if up := partDifference(c.variable, l.currentSetup(), c.to) > 0; up {
		switch {
		case c.variable == VarySpeed && l.currentTally().off > 0, c.variable == VaryTip && c.to.Tip > highestTip:
			return true
		}
	}
	return l.hurtBefore(c, l.undoCertainty()) || l.wasTriedAndWorse(c)
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
		worse := compareTallies(&l.currentRecord().tally, &r.tally, worthMeasure)
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

// beliefForbids reports whether a pattern's answer goes against everything seen
// together: it likely harms, or has been tried and found worse, or most likely
// nothing is amiss. A scratch or a foul is a loss whatever else was seen, so that
// its answer is held back for harm alone.
func (l *analysis) beliefForbids(name RuleName, c proposedChange) bool {
	if l.hands == nil || c.variable == VaryRack {
		return false
	}
	e := l.hands.Compare(belief.StandardWeights(), l.kind, l.currentSetup(), c.to)
	switch {
	case l.wasTriedAndWorse(c):
		return true
	case l.hands.Surprise() > strangeBreaks:
		return e.Harm > 0.5
	case isLoss(name):
		return e.Harm > forbiddenHarm
	}
	return e.Harm > forbiddenHarm || l.hands.ShareOf(belief.Nothing) > likelyNothing
}

// isLoss reports whether a pattern is itself a loss of the break.
func isLoss(name RuleName) bool {
	switch name {
	case RuleWeak, RuleSideScratch, RuleHeadScratch, RuleFootScratch:
		return true
	}
	return false
}
