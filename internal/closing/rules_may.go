package closing

import "breakwright/internal/advice"

// May says which of a rule's numbers have an effect, and so can be set.
type May struct {
	On, Line, Certainty, Onward, Step, MinBreaks bool
}

// Any says whether anything can be set.
func (m May) Any() bool { return m != May{} }

// Settable says what of a rule a club can set.
func Settable(rule advice.Rule) May {
	switch rule.Name {
	case advice.RuleLimits, advice.RuleNewTable:
		// The next setup lies within what is taught in any case. Where a student
		// begins on another table is the coach's drill.
		return May{}
	case advice.RuleTooEarly:
		return May{Line: true}
	case advice.RuleFollowUp, advice.RuleProgress, advice.RuleDry:
		// None of them changes a part of the setup on, and the follow-up's line
		// and the targets of progress are not the club's.
		return May{On: true, Line: rule.Name == advice.RuleDry, Certainty: true, MinBreaks: true}
	}
	return May{
		On: rule.Name != advice.RuleDanger, Line: true, Certainty: true, Onward: true,
		Step: rule.StepUnit != "", MinBreaks: true,
	}
}
