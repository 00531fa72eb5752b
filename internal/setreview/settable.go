package setreview

import "breakwright/internal/advice"

// SettableNumbers says which of a rule's numbers have an effect, and so can be set.
type SettableNumbers struct {
	On, Line, Certainty, Onward, Step, MinBreaks bool
}

// HasAny reports whether anything can be set.
func (m SettableNumbers) HasAny() bool { return m != SettableNumbers{} }

// ListSettable says what of a rule a club can set.
func ListSettable(rule advice.Rule) SettableNumbers {
	switch rule.Name {
	case advice.RuleLimits, advice.RuleNewTable:
		// The next setup lies within what is taught in any case. Where a student
		// begins on another table is the coach's drill.
		return SettableNumbers{}
	case advice.RuleWeighing:
		return SettableNumbers{On: true, Line: true, Certainty: true, MinBreaks: true}
	case advice.WorthDown, advice.WorthShot, advice.WorthScratch, advice.WorthOff, advice.WorthWeak, advice.WorthWing, advice.WorthCue:
		return SettableNumbers{Step: true}
	case advice.RuleTooEarly:
		return SettableNumbers{Line: true}
	case advice.RuleFollowUp, advice.RuleProgress, advice.RuleDry:
		// None of them changes a part of the setup on, and the follow-up's line
		// and the targets of progress are not the club's.
		return SettableNumbers{On: true, Line: rule.Name == advice.RuleDry, Certainty: true, MinBreaks: true}
	}
	return SettableNumbers{
		On: rule.Name != advice.RuleDanger, Line: true, Certainty: true, Onward: true,
		Step: rule.StepUnit != "", MinBreaks: true,
	}
}
