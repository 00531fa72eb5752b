package rules

import (
	"strings"
	"testing"
	"time"

	"breakwright/internal/advice"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
)

func TestCompare_CountsFirstAndWhatItDoesNotList(t *testing.T) {
	rule := advice.Rule{Name: advice.RuleMissBalance}
	at := time.Date(2026, 3, 2, 23, 30, 0, 0, time.UTC)
	zone := time.FixedZone("ahead", 3600)
	var now, typed []setreview.ReplayedSet
	add := func(n int, before, after setreview.ReplayedSet) {
		for range n {
			before.Student, before.Closed, after.Closed = "Odile", at, at
			now, typed = append(now, before), append(typed, after)
		}
	}
	move := setreview.ReplayedSet{Verdict: advice.Change, Sentence: "Move.", DecidingRule: rule.Name}
	softer := setreview.ReplayedSet{Verdict: advice.Change, Sentence: "Softer.", DecidingRule: advice.RuleUnsteady, FiredRules: []advice.RuleName{rule.Name}}
	again := setreview.ReplayedSet{Verdict: advice.More, Sentence: "Again.", DecidingRule: advice.RuleTooEarly}
	longer := setreview.ReplayedSet{Verdict: advice.More, Sentence: "Again, longer.", DecidingRule: advice.RuleTooEarly}
	add(60, again, move)
	add(3, move, again)
	add(2, softer, move)
	add(1, again, longer)
	add(10, again, again)
	v := compareJudgements(rule, now, typed, zone)
	if v.Answer != "Another answer in 66 of 76 sets of the last 30 days." || len(v.Differences) != maxDifferences || v.More != 16 {
		t.Errorf("%q, %d listed and %d more", v.Answer, len(v.Differences), v.More)
	}
	want := []string{
		"This rule would have spoken in 62 of 76 sets, instead of 3.",
		"60 sets would have got a change where none was asked for.",
		"3 sets would have got no change where one was asked for.",
		"2 sets would have got another change.",
		"One set would have got another answer about waiting or keeping.",
	}
	if got := strings.Join(v.Counts, "\n"); got != strings.Join(want, "\n") {
		t.Errorf("counts:\n%s", got)
	}
	if d := v.Differences[0]; d.Day != "3 March" || d.TriedAdvice != "Move." || d.PresentAdvice != "Again." {
		t.Errorf("the first difference: %+v", d)
	}
}

func TestTallyRules_CountsWhichRuleSpoke(t *testing.T) {
	h := tallyRules([]setreview.ReplayedSet{
		{DecidingRule: advice.RuleUnsteady, FiredRules: []advice.RuleName{advice.RuleUnsteady, advice.RuleForward, advice.RuleDry}},
		{DecidingRule: advice.RuleTooEarly}, {FiredRules: []advice.RuleName{advice.RuleForward}},
	})
	for rule, want := range map[advice.RuleName]string{
		advice.RuleUnsteady: "spoke in 1 of 3 sets.",
		advice.RuleForward:  "spoke in 0 of 3 sets, and was sure in 2 more,",
		advice.RuleDry:      "its checklist came with 1 of 3 sets.",
		advice.RuleNewTable: "before anything is closed",
	} {
		if got := h.lastMonthWords(rule); !strings.Contains(got, want) {
			t.Errorf("%s: %q", rule, got)
		}
	}
	if got := leftOutWords(store.PastCases{Cases: make([]store.PastCase, 300), Left: 12}); got != "There were 12 more; only the latest 300 were judged again." {
		t.Error(got)
	}
}

// Every rule's numbers are told in whole sentences.
func TestSpeaksWhen_EachRule(t *testing.T) {
	for _, rule := range advice.Catalogue() {
		n := rule.Numbers
		n.On = true
		says := speaksWhen(rule, n)
		if !strings.HasSuffix(says, ".") || strings.Contains(says, "  ") || strings.Contains(says, "that the is") {
			t.Errorf("%s: %q", rule.Name, says)
		}
		if list := changedNumbers(rule, rule.Numbers); len(list) != 0 {
			t.Errorf("%s as it comes is changed in %q", rule.Name, list)
		}
	}
}
