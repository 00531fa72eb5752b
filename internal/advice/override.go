package advice

import "breakwright/internal/drill"

// isOverruled reports whether the coach has decided against a rule and its evidence
// has not doubled since.
func (l *analysis) isOverruled(name RuleName) bool {
	for _, o := range l.overrides {
		if o.Rule == name && o.appliesTo(l.currentSetup()) && l.currentTally().breaks < 2*o.Breaks {
			return true
		}
	}
	return false
}

// appliesTo reports whether the decision was made in the stint of this setup, or
// put it in place.
func (o Override) appliesTo(s drill.Setup) bool {
	return o.Under == drill.Setup{} || o.Under.SameAs(s) ||
		o.Instead != drill.Setup{} && o.Instead.SameAs(s)
}

// pendingCoachSetup gives the setup the coach chose instead, while it waits to be
// played: no break has been recorded since the decision.
func (l *analysis) pendingCoachSetup() *drill.Setup {
	for _, o := range l.overrides {
		if o.Instead == (drill.Setup{}) || l.currentTally().breaks > o.Breaks || o.Instead.SameAs(l.currentSetup()) {
			continue
		}
		if o.Under == (drill.Setup{}) || o.Under.SameAs(l.currentSetup()) {
			return &o.Instead
		}
	}
	return nil
}
