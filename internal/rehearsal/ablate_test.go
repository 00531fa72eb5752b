//go:build !quick && !race

package rehearsal

import (
	"bytes"
	"context"
	"slices"
	"strings"
	"testing"

	"breakwright/internal/advice"
)

// Without the rule that answers a wrong place, fewer first changes are right and
// fewer breaks good; a rule for what these students do not do changes nothing.
func TestAblate_KnowsWhatARuleIsWorth(t *testing.T) {
	a, err := Ablate(context.Background(), Options{Students: 24, Sets: 4, Seed: 2, Faults: []Fault{Place}})
	if err != nil {
		t.Fatal(err)
	}
	worth := map[advice.RuleName]RuleWorth{}
	for _, w := range a.Rows {
		worth[w.Rule] = w
	}
	if w := worth[advice.RuleMissBalance]; w.Value.Low <= 0 || w.RightWith.Count <= w.RightWithout.Count {
		t.Errorf("the balance of misses: %+v", w)
	}
	if w := worth[advice.RuleLimits]; w.Touched.Count != 0 || w.Value != (Mean{}) {
		t.Errorf("limits, which nobody breaks: %+v", w)
	}
	if w, ok := worth[advice.RuleHeadBall]; !ok || w.Usual {
		t.Errorf("a rule that is off as it comes: %+v", w)
	}
	var page bytes.Buffer
	if err := a.WriteText(&page); err != nil || !strings.Contains(page.String(), "wing-miss-balance") || strings.Contains(page.String(), "%!") {
		t.Errorf("%v\n%s", err, page.String())
	}
}

func TestRun_WithoutARule(t *testing.T) {
	plan := Options{Students: 20, Sets: 4, Seed: 4, Faults: []Fault{Tip}}
	with := runRehearsal(t, plan)
	plan.Without = []advice.RuleName{advice.RuleForward, advice.RuleBackTooFar}
	bare := runRehearsal(t, plan)
	if bare.Rows[0].RightOfChanged.Count >= with.Rows[0].RightOfChanged.Count || !slices.Equal(bare.Without, plan.Without) {
		t.Errorf("with %+v, without %+v", with.Rows[0].RightOfChanged, bare.Rows[0].RightOfChanged)
	}
	plan.Without = []advice.RuleName{"luck"}
	if _, err := Run(context.Background(), plan); err == nil || !strings.Contains(err.Error(), "luck") {
		t.Errorf("an unknown rule: %v", err)
	}
	if _, err := Run(context.Background(), Options{Students: 1, Sets: 1, Model: "clay"}); err == nil || !strings.Contains(err.Error(), "physics") {
		t.Errorf("an unknown model: %v", err)
	}
}
