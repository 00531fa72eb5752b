package setreview

import (
	"fmt"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
)

// AdviserRules are the adviser's rules with what the club has set in them. Settings of
// rules that this program does not know, and numbers that it cannot work with, are
// passed over; what would make the rule of safety laxer than its floor is held at
// the floor. The version names the program's rules and the club's revision of them,
// as "1+7", so that old advice can be explained.
func AdviserRules(club drill.ClubRules) advice.Rules {
	own := advice.DefaultRules()
	if club.Revision > 0 {
		own.Version = fmt.Sprintf("%s+%d", advice.RulesVersion, club.Revision)
	}
	for _, rule := range advice.EverySetting() {
		own.Numbers[rule.Name] = RuleNumbers(rule, club.SettingOf(string(rule.Name)))
	}
	return own
}

// RuleNumbers are one rule's numbers with what the club has set in them.
func RuleNumbers(rule advice.Rule, set drill.RuleSetting) advice.Numbers {
	n := overlaySetting(rule, rule.Numbers, set)
	if rule.CheckNumbers(n) != nil {
		n = rule.Numbers // a log may hold any numbers
	}
	if rule.Name == advice.RuleDanger {
		n = raiseToFloor(n)
	}
	return n
}

// overlaySetting puts what is set over the numbers a rule comes with, where the rule lets
// that be set.
func overlaySetting(rule advice.Rule, n advice.Numbers, set drill.RuleSetting) advice.Numbers {
	may := ListSettable(rule)
	overlayNumber(&n.On, set.On, may.On)
	overlayNumber(&n.Line, set.Line, may.Line)
	overlayNumber(&n.Certainty, set.Certainty, may.Certainty)
	overlayNumber(&n.Onward, set.Onward, may.Onward)
	overlayNumber(&n.Step, set.Step, may.Step)
	overlayNumber(&n.MinBreaks, set.MinBreaks, may.MinBreaks)
	return n
}

func overlayNumber[T any](into *T, set *T, may bool) {
	if may && set != nil {
		*into = *set
	}
}

// NewSetting is what a club sets to have these numbers: only what differs from
// those the rule comes with, so that the rest follows the program.
func NewSetting(rule advice.Rule, n advice.Numbers) drill.RuleSetting {
	may, comes := ListSettable(rule), rule.Numbers
	return drill.RuleSetting{
		Rule: string(rule.Name),
		On:   changedNumber(n.On, comes.On, may.On), Line: changedNumber(n.Line, comes.Line, may.Line),
		Certainty: changedNumber(n.Certainty, comes.Certainty, may.Certainty), Onward: changedNumber(n.Onward, comes.Onward, may.Onward),
		Step: changedNumber(n.Step, comes.Step, may.Step), MinBreaks: changedNumber(n.MinBreaks, comes.MinBreaks, may.MinBreaks),
	}
}

func changedNumber[T comparable](n, comes T, may bool) *T {
	if !may || n == comes {
		return nil
	}
	return &n
}

// CheckNumbers says what in a rule's numbers cannot be saved, a sentence a field,
// named as by [advice.Rules.Check]: what cannot be worked with, and what would
// make the rule of safety laxer than its floor.
func CheckNumbers(rule advice.Rule, n advice.Numbers) error {
	var p drill.Problems
	if rule.Name == advice.RuleDanger {
		checkFloor(n, &p)
	}
	err := advice.Rules{Numbers: map[advice.RuleName]advice.Numbers{rule.Name: n}}.Check()
	if problems, ok := err.(drill.Problems); ok {
		p = append(p, problems...)
	}
	return p.Err()
}
