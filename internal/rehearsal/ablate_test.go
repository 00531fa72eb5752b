//go:build !quick

package rehearsal

import (
	"bytes"
	"context"
	"encoding/json"
	"reflect"
	"slices"
	"strings"
	"testing"

	"breakwright/internal/advice"
)

func TestAblate_SameSeedSameTable(t *testing.T) {
	plan := Options{Students: 3, Sets: 2, Seed: 9, Faults: []Fault{Place, NoFault}}
	one, err := Ablate(context.Background(), plan)
	plan.Workers = 3
	other, err2 := Ablate(context.Background(), plan)
	if err != nil || err2 != nil || !reflect.DeepEqual(one, other) {
		t.Errorf("%v %v: %+v and %+v", err, err2, one, other)
	}
}

// Without the rule that answers a wrong place, fewer first changes are right and
// fewer breaks good; a rule for what these students do not do changes nothing.
func TestAblate_KnowsWhatARuleIsWorth(t *testing.T) {
	a, err := Ablate(context.Background(), Options{Students: 16, Sets: 4, Seed: 2, Faults: []Fault{Place}})
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

func TestRun_OnPhysicalStudents(t *testing.T) {
	plan := Options{Students: 1, Sets: 1, Seed: 5, Faults: []Fault{Speed}, Model: PhysicsModel}
	alone := runRehearsal(t, plan)
	plan.Workers = 2
	if together := runRehearsal(t, plan); !reflect.DeepEqual(alone, together) {
		t.Errorf("with one worker %+v\nwith two %+v", alone, together)
	}
	out, err := json.Marshal(alone)
	var back struct {
		Model  string
		Margin float64
		Rows   []struct {
			Fault string
			Start map[string]float64 `json:"start_rates"`
			Gain  Mean
		}
	}
	if err == nil {
		err = json.Unmarshal(out, &back)
	}
	if err != nil || back.Model != "physics" || back.Margin != ComputedMargin || len(back.Rows) == 0 || back.Rows[0].Fault != "speed" {
		t.Fatalf("%v: %s", err, out)
	}
	if s := back.Rows[0].Start; len(s) != 9 || s["Wing"] != alone.Rows[0].StartRates.Wing || s["Wing"] <= 0 {
		t.Errorf("start %v", s)
	}
	var page bytes.Buffer
	if err := alone.WriteText(&page); err != nil || !strings.Contains(page.String(), "--model physics") || strings.Contains(page.String(), "NaN") {
		t.Errorf("%v\n%s", err, page.String())
	}
}
