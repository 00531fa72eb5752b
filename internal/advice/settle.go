package advice

import (
	"breakwright/internal/drill"
	"breakwright/internal/evidence"
)

// shortCertainty is how sure a target must be missed, with no pattern in sight,
// before a coach is asked to look.
const shortCertainty = 0.9

// levelBreaks is how many breaks without a pattern are enough to stop looking.
const levelBreaks = 40

// settlePatience says how far ahead the number of breaks still needed is looked for:
// in whole sets, at most four.
func (l *analysis) settlePatience() evidence.SettlingLimits {
	return evidence.SettlingLimits{
		Chance: l.rules.numbersOf(tooEarlyRule).Line,
		Step:   drill.UsualBreaks, Most: 4 * drill.UsualBreaks,
	}
}

// settleWithoutChange says what no change means: the setup is good, many breaks have left
// it near the target, or it is too early to tell.
func (l *analysis) settleWithoutChange(d *decision) {
	breaks := l.currentTally().breaks
	n := l.rules.numbersOf(progressRule)
	d.setupIsGood = n.On && breaks >= n.MinBreaks && d.observations[RuleDanger].certainty < 0.5 &&
		d.surestMiss() <= 1-n.Certainty && !l.losesCueBall() && !l.seldomLeavesShot()
	d.setupIsLevel = !d.setupIsGood && d.exhaustedRule != nil && breaks >= n.MinBreaks && !l.losesCueBall()
	if d.setupIsGood || d.setupIsLevel {
		return
	}
	d.breaksNeeded, d.settleIsLikely = l.breaksToSettle(d)
	d.missesTarget = breaks >= levelBreaks-drill.UsualBreaks && d.surestMiss() >= shortCertainty
	d.setupIsLevel = breaks >= levelBreaks && !d.settleIsLikely && !d.missesTarget && !d.checkRack && !l.losesCueBall()
}

// surestMiss is how sure it is that the goal is missed that is missed most surely. A
// goal that nobody wrote anything down of is neither met nor missed.
func (d *decision) surestMiss() float64 {
	surest := 0.0
	for _, goal := range []RuleName{FactWing, FactWindow, FactShot, FactRanOut} {
		s, asked := d.observations[goal]
		switch {
		case asked && s.of == 0:
			surest = max(surest, 0.5)
		case asked:
			surest = max(surest, 1-s.certainty)
		}
	}
	return surest
}

// tooManyScratches is the share of breaks beyond which a setup that loses the
// cue ball is never called good, wherever the scratches fall (common practice,
// no source).
const tooManyScratches = 0.2

// losesCueBall reports whether the cue ball is likelier than not to scratch too
// often, or balls have left the table more than once.
func (l *analysis) losesCueBall() bool {
	t := l.currentTally()
	return t.off > 1 || observeShare(t.cue.countScratches(), t.breaks, tooManyScratches).certainty >= 0.5
}

// breaksToSettle asks the pattern nearest to its certainty how many more breaks
// would likely settle it; with no pattern in sight, the wing ball's target.
func (l *analysis) breaksToSettle(d *decision) (breaks int, likely bool) {
	if l.currentTally().breaks < fewestBreaks {
		return drill.UsualBreaks, true
	}
	lead, question := observation{}, evidence.LineQuestion{}
	for i := range patternRules {
		r := &patternRules[i]
		s, looked := d.observations[r.Name]
		if looked && r.proposeChanges != nil && s.canSettle && s.certainty >= 0.6 && s.certainty > lead.certainty && !l.isOverruled(r.Name) {
			lead, question = s, evidence.LineQuestion{Line: s.line, Certainty: l.rules.numbersOf(r.Rule).Certainty}
		}
	}
	if lead.of == 0 {
		lead = d.observations[FactWing]
		question = evidence.LineQuestion{Line: l.targets.Wing, Certainty: l.rules.numbersOf(progressRule).Certainty}
	}
	breaks, likely = question.BreaksToSettle(lead.rateBelief(), l.settlePatience())
	return max(breaks, drill.UsualBreaks), likely
}

// seldomLeavesShot reports whether the breaks whose shot was noted leave an open one
// clearly less often than one in three (common practice, no source): then a setup is
// not called good, whatever falls.
func (l *analysis) seldomLeavesShot() bool {
	t := l.currentTally()
	return t.shotSeen >= fewestBreaks && 1-observeShare(t.openShot, t.shotSeen, 1.0/3).certainty >= shortCertainty
}
