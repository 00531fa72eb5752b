package advice

import (
	"errors"
	"math"
	"testing"

	"breakwright/internal/drill"
)

func TestRulesCheck(t *testing.T) {
	if err := DefaultRules().Check(); err != nil {
		t.Fatalf("the rules as they come: %v", err)
	}
	if err := (Rules{}).Check(); err != nil {
		t.Fatalf("no numbers of one's own: %v", err)
	}
	for _, c := range []struct {
		field string
		spoil func(*Numbers)
	}{
		{"line", func(n *Numbers) { n.Line = 1.2 }},
		{"line", func(n *Numbers) { n.Line = math.NaN() }},
		{"certainty", func(n *Numbers) { n.Certainty = 0.3 }},
		{"certainty", func(n *Numbers) { n.Certainty = 1 }},
		{"onward", func(n *Numbers) { n.Onward = 0.999 }},
		{"step", func(n *Numbers) { n.Step = 0 }},
		{"step", func(n *Numbers) { n.Step = 40 }},
		{"min_breaks", func(n *Numbers) { n.MinBreaks = -1 }},
	} {
		own := DefaultRules()
		n := own.Numbers[RuleMissBalance]
		c.spoil(&n)
		own.Numbers[RuleMissBalance] = n
		var problems drill.Problems
		if err := own.Check(); !errors.As(err, &problems) || problems.MessageFor(string(RuleMissBalance)+"."+c.field) == "" {
			t.Errorf("%+v: %v, want a word about %s", n, err, c.field)
		}
	}
	taken := func(r Rule, change func(*Numbers)) bool {
		n := r.Numbers
		change(&n)
		return r.CheckNumbers(n) == nil
	}
	step := missBalanceRule.Numbers.Step
	for _, c := range []struct {
		name   string
		change func(*Numbers)
		want   bool
	}{
		{"a line at none", func(n *Numbers) { n.Line = 0 }, true},
		{"a line at all", func(n *Numbers) { n.Line = 1 }, false},
		{"a certainty of one half", func(n *Numbers) { n.Certainty, n.Onward = 0.5, 0.51 }, false},
		{"a certainty of a little more", func(n *Numbers) { n.Certainty, n.Onward = 0.55, 0.55 }, true},
		{"going on at one half", func(n *Numbers) { n.Onward = 0.5 }, false},
		{"going on a little surer", func(n *Numbers) { n.Onward = 0.55 }, true},
		{"going on as surely as beginning", func(n *Numbers) { n.Onward = n.Certainty }, true},
		{"three times the step", func(n *Numbers) { n.Step = 3 * step }, true},
		{"more than that", func(n *Numbers) { n.Step = 3.2 * step }, false},
		{"from the first break on", func(n *Numbers) { n.MinBreaks = 0 }, true},
		{"from 500 breaks on", func(n *Numbers) { n.MinBreaks = 500 }, true},
		{"from 501 on", func(n *Numbers) { n.MinBreaks = 501 }, false},
	} {
		if got := taken(missBalanceRule.Rule, c.change); got != c.want {
			t.Errorf("%s: taken is %v", c.name, got)
		}
	}
	for rule, want := range map[*Rule]string{&missBalanceRule.Rule: "a step is above 0 and at most 12 in of place", &worthParts[0]: "it counts above 0 and at most 3 points"} {
		n := rule.Numbers
		n.Step = 0
		var problems drill.Problems
		if err := rule.CheckNumbers(n); !errors.As(err, &problems) || problems.MessageFor(string(rule.Name)+".step") != want {
			t.Errorf("%s without a step: %v, want %q", rule.Name, err, want)
		}
	}
	own := Rules{Numbers: map[RuleName]Numbers{"no-such-rule": {}}}
	if err := own.Check(); err == nil {
		t.Error("a rule nobody knows is accepted")
	}
}
