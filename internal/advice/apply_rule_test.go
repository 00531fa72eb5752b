package advice

import (
	"strings"
	"testing"
)

// inventedRule sees a pattern so surely, and proposes these changes.
func inventedRule(certainty float64, count int, changes ...proposedChange) *patternRule {
	return &patternRule{
		Rule:           Rule{Name: RuleForward, Numbers: Numbers{On: true, Certainty: 0.9, Onward: 0.9}},
		observe:        func(*analysis, Numbers) observation { return observation{count: count, of: 10, certainty: certainty} },
		proposeChanges: func(*analysis, Numbers, observation) []proposedChange { return changes },
	}
}

// inventedAnalysis is of ten ordinary breaks, under the invented rule's own numbers.
func inventedAnalysis(t *testing.T) *analysis {
	t.Helper()
	l := analysisOf(scripted(t, standardSetup(), ordinaryWing, "w"))
	l.rules = DefaultRules()
	l.rules.Numbers[RuleForward] = inventedRule(1, 1).Numbers
	return l
}

// A rule that is sure and has nothing left to change has fired, and calls for the coach
// unless it may wait; the first that does is the one that is named.
func TestApplyRule_WithoutAnAnswerLeft(t *testing.T) {
	l := inventedAnalysis(t)
	for _, checkRack := range []bool{false, true} {
		sure, later := inventedRule(0.95, 3), inventedRule(0.95, 3)
		d := decision{observations: map[RuleName]observation{}, checkRack: checkRack}
		l.applyRule(sure, &d)
		l.applyRule(later, &d)
		if d.exhaustedRule != sure || d.change != nil || len(d.findings) != 2 || !d.findings[0].Fired {
			t.Errorf("check of the rack %v: exhausted is %v, findings %+v", checkRack, d.exhaustedRule, d.findings)
		}
	}
	waits := inventedRule(0.95, 3)
	waits.mayWait = true
	d := decision{observations: map[RuleName]observation{}}
	if l.applyRule(waits, &d); d.exhaustedRule != nil {
		t.Error("one that may wait calls for the coach")
	}
}

// A change is held back by the rack's check, and never takes the place of an earlier one.
func TestApplyRule_ChoosesTheFirstChange(t *testing.T) {
	l := inventedAnalysis(t)
	first, second := l.moveCueBallOut(1, reasonPlain), l.moveCueBallOut(2, reasonPlain)
	d := decision{observations: map[RuleName]observation{}}
	l.applyRule(inventedRule(0.95, 3, first), &d)
	l.applyRule(inventedRule(0.95, 3, second), &d)
	if d.change == nil || d.change.to != first.to || !d.findings[0].Fired {
		t.Errorf("chosen is %+v, want the first", d.change)
	}
	d = decision{observations: map[RuleName]observation{}, checkRack: true}
	if l.applyRule(inventedRule(0.95, 3, first), &d); d.change != nil {
		t.Error("a change is chosen while the rack must be checked")
	}
}

// What was seen is a finding from an even chance on, when it was seen at all.
func TestApplyRule_FindingsFromAnEvenChanceOn(t *testing.T) {
	l := inventedAnalysis(t)
	for _, c := range []struct {
		certainty float64
		count     int
		want      bool
	}{{0.5, 1, true}, {0.49, 9, false}, {0.8, 0, false}, {0.8, 1, true}, {0.95, 0, true}} {
		d := decision{observations: map[RuleName]observation{}}
		if l.applyRule(inventedRule(c.certainty, c.count), &d); (len(d.findings) == 1) != c.want {
			t.Errorf("%d seen, %v sure: %d findings", c.count, c.certainty, len(d.findings))
		}
	}
}

// A break card is for a setup that stays, and the rack is checked before anything else is
// changed.
func TestComposeAdvice_CardAndRackOnlyWithoutAChange(t *testing.T) {
	set := scripted(t, standardSetup(), strings.Repeat("mmmsm", 4), "w")
	l := analysisOf(set)
	stays := l.applyRules()
	if stays.change != nil {
		t.Fatalf("a good setup is changed: %+v", stays.change)
	}
	stays.checkRack = true
	if a := l.composeAdvice(stays, set, nil); a.Card == nil || !a.CheckRack {
		t.Errorf("a setup that stays: card %v, check of the rack %v", a.Card, a.CheckRack)
	}
	coachs := stays
	other := setupAtDistance(14)
	coachs.coachSetup = &other
	if a := l.composeAdvice(coachs, set, nil); a.Card != nil || a.Next != other {
		t.Errorf("the coach's setup: card %v, next %+v", a.Card, a.Next)
	}
	changed := stays
	change := l.moveCueBallOut(2, reasonPlain)
	changed.change, changed.chosenRule = &change, &patternRules[0]
	if a := l.composeAdvice(changed, set, nil); a.Card != nil || a.CheckRack {
		t.Errorf("a change: card %v, check of the rack %v", a.Card, a.CheckRack)
	}
}
