package coaching

import "breakwright/internal/drill"

// Overruled is a coach's decision against a proposal, or without one, as the
// adviser is told of it.
type Overruled struct {
	// Rule is what had proposed something; "" for the coach's own change.
	Rule string
	// Table is the label and Under the setup of the set it was decided for.
	Table string
	Under drill.Setup
	// Breaks is the number of breaks on that table under that setup in the sets
	// closed by then, in a row or not: what the decision was made on.
	Breaks int
	// Instead is the coach's own setup; the zero setup when they declined.
	Instead drill.Setup
}

// Overrule tells a decision that was made after the set at, with the sets that
// were closed by then; at is one of them.
func Overrule(rule string, decision State, chosen drill.Setup, at drill.Set, closed []drill.Set) Overruled {
	o := Overruled{Rule: rule, Table: at.Table, Under: at.Setup}
	for _, set := range closed {
		if set.Table == at.Table && set.Kind == at.Kind && set.Setup.SameAs(at.Setup) {
			o.Breaks += len(set.Breaks)
		}
	}
	if decision == Changed || decision == Own {
		o.Instead = chosen
	}
	return o
}
