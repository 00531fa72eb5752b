package closing

import (
	"fmt"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/store"
)

// Rules are the adviser's rules with what the club has set in them. Settings of
// rules that this program does not know are passed over; what would make the
// rule of safety laxer than its floor is held at the floor. The version names
// the program's rules and the club's revision of them, as "1+7", so that an
// old advice can be explained.
func Rules(club store.ClubRules) advice.Rules {
	own := advice.DefaultRules()
	if club.Revision > 0 {
		own.Version = fmt.Sprintf("%s+%d", advice.RulesVersion, club.Revision)
	}
	for _, rule := range advice.Catalogue() {
		own.Numbers[rule.Name] = Numbers(rule, club.Of(string(rule.Name)))
	}
	return own
}

// Numbers are one rule's numbers with what the club has set in them.
func Numbers(rule advice.Rule, set store.RuleSetting) advice.Numbers {
	n := held(rule, rule.Numbers, set)
	if rule.Name == advice.RuleDanger {
		n = atFloor(n)
	}
	return n
}

// held puts what is set over the numbers a rule comes with, where the rule lets
// that be set.
func held(rule advice.Rule, n advice.Numbers, set store.RuleSetting) advice.Numbers {
	may := Settable(rule)
	put(&n.On, set.On, may.On)
	put(&n.Line, set.Line, may.Line)
	put(&n.Certainty, set.Certainty, may.Certainty)
	put(&n.Onward, set.Onward, may.Onward)
	put(&n.Step, set.Step, may.Step)
	put(&n.MinBreaks, set.MinBreaks, may.MinBreaks)
	return n
}

func put[T any](into *T, set *T, may bool) {
	if may && set != nil {
		*into = *set
	}
}

// Setting is what a club sets to have these numbers: only what differs from
// those the rule comes with, so that the rest follows the program.
func Setting(rule advice.Rule, n advice.Numbers) store.RuleSetting {
	may, comes := Settable(rule), rule.Numbers
	return store.RuleSetting{
		Rule: string(rule.Name),
		On:   differs(n.On, comes.On, may.On), Line: differs(n.Line, comes.Line, may.Line),
		Certainty: differs(n.Certainty, comes.Certainty, may.Certainty), Onward: differs(n.Onward, comes.Onward, may.Onward),
		Step: differs(n.Step, comes.Step, may.Step), MinBreaks: differs(n.MinBreaks, comes.MinBreaks, may.MinBreaks),
	}
}

func differs[T comparable](n, comes T, may bool) *T {
	if !may || n == comes {
		return nil
	}
	return &n
}

// Check says what in a rule's numbers cannot be saved, a sentence a field,
// named as by [advice.Rules.Check]: what cannot be worked with, and what would
// make the rule of safety laxer than its floor.
func Check(rule advice.Rule, n advice.Numbers) error {
	var p drill.Problems
	if rule.Name == advice.RuleDanger {
		checkFloor(n, &p)
	}
	err := advice.Rules{Numbers: map[advice.Name]advice.Numbers{rule.Name: n}}.Check()
	if problems, ok := err.(drill.Problems); ok {
		p = append(p, problems...)
	}
	return p.Err()
}
