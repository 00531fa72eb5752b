package advice

import (
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Brief is what Judge is told beside the breaks. The zero Brief asks for the
// standards of the table and the rules as they come.
type Brief struct {
	// Window is where the cue ball should stop, the right way round for the
	// student; zero for the table's standard window.
	Window table.Window
	// Targets are the shares that count as good; a zero part means the standard
	// of the table.
	Targets drill.Targets
	// House is what the room asks of a break: no change is told that leaves its box or
	// gives up its points.
	House drill.HouseRules
	// Rules are the club's numbers; zero for DefaultRules.
	Rules Rules
	// Overrides are the coach's decisions for this student, in any order.
	Overrides []Override
	// TablesPlay is how the tables play, as other students' breaks of the rack that is
	// judged showed it.
	TablesPlay drill.TablesPlay
}

// Override is a coach's decision against a rule's proposal. The same point is
// not argued again until there are twice as many breaks as it was decided on.
type Override struct {
	// Rule is the rule that had proposed something.
	Rule RuleName
	// Table is the table it was decided for; empty for any.
	Table string
	// Under is the setup of the stint it was decided in; the zero setup is any.
	Under drill.Setup
	// Breaks is the number of breaks in that stint when it was decided.
	Breaks int
	// Instead is the setup the coach chose; the zero setup keeps the present one.
	Instead drill.Setup
}

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

// pendingCoachSetup returns the setup the coach chose, while it waits to be played: no
// break has been recorded since the decision. A coach who declined and chose nothing
// instead chose the present one.
func (l *analysis) pendingCoachSetup() *drill.Setup {
	for _, o := range l.overrides {
		if l.currentTally().breaks > o.Breaks || o.Under != (drill.Setup{}) && !o.Under.SameAs(l.currentSetup()) {
			continue
		}
		switch {
		case o.Instead == (drill.Setup{}):
			return new(l.currentSetup())
		case !o.Instead.SameAs(l.currentSetup()):
			return &o.Instead
		}
	}
	return nil
}
