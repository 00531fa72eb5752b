package advice

import "breakwright/internal/drill"

// silenced says whether the coach has decided against a rule and its evidence
// has not doubled since.
func (l *lesson) silenced(name Name) bool {
	for _, o := range l.overrides {
		if o.Rule == name && o.concerns(l.setup()) && l.seen().breaks < 2*o.Breaks {
			return true
		}
	}
	return false
}

// concerns says whether the decision was made in the stint of this setup, or
// put it in place.
func (o Override) concerns(s drill.Setup) bool {
	return o.Under == drill.Setup{} || o.Under.SameAs(s) ||
		o.Instead != drill.Setup{} && o.Instead.SameAs(s)
}

// coachSetup gives the setup the coach chose instead, while it waits to be
// played: no break has been recorded since the decision.
func (l *lesson) coachSetup() *drill.Setup {
	for _, o := range l.overrides {
		if o.Instead == (drill.Setup{}) || l.seen().breaks > o.Breaks || o.Instead.SameAs(l.setup()) {
			continue
		}
		if o.Under == (drill.Setup{}) || o.Under.SameAs(l.setup()) {
			return &o.Instead
		}
	}
	return nil
}
