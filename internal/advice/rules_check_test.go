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
	own := Rules{Numbers: map[RuleName]Numbers{"no-such-rule": {}}}
	if err := own.Check(); err == nil {
		t.Error("a rule nobody knows is accepted")
	}
}
