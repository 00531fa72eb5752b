package setreview_test

import (
	"errors"
	"math"
	"testing"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

func ruleOf(t *testing.T, name advice.RuleName) advice.Rule {
	t.Helper()
	for _, r := range advice.EverySetting() {
		if r.Name == name {
			return r
		}
	}
	t.Fatalf("no rule %q", name)
	return advice.Rule{}
}

func TestRules_AsTheyCome(t *testing.T) {
	got := setreview.AdviserRules(drill.ClubRules{})
	if got.Version != advice.RulesVersion || len(got.Numbers) != len(advice.EverySetting()) {
		t.Errorf("version %q with %d rules", got.Version, len(got.Numbers))
	}
	for _, r := range advice.EverySetting() {
		if got.Numbers[r.Name] != r.Numbers {
			t.Errorf("%s: %+v, not as it comes", r.Name, got.Numbers[r.Name])
		}
		if err := setreview.CheckNumbers(r, r.Numbers); err != nil {
			t.Errorf("%s as it comes: %v", r.Name, err)
		}
		if s := setreview.NewSetting(r, r.Numbers); !s.IsStandard() {
			t.Errorf("%s as it comes is set to %+v", r.Name, s)
		}
	}
}

func TestRules_WithAClubsSettings(t *testing.T) {
	club := drill.ClubRules{Revision: 7, Settings: []drill.RuleSetting{
		{Rule: "unsteady", Line: new(0.3), MinBreaks: new(12)},
		{Rule: "a rule of some other version", On: new(false)},
		{Rule: "outside-limits", On: new(false)}, // cannot be set
	}}
	got := setreview.AdviserRules(club)
	want := ruleOf(t, advice.RuleUnsteady).Numbers
	want.Line, want.MinBreaks = 0.3, 12
	if got.Numbers[advice.RuleUnsteady] != want {
		t.Errorf("unsteady: %+v, want %+v", got.Numbers[advice.RuleUnsteady], want)
	}
	if !got.Numbers[advice.RuleLimits].On {
		t.Error("the limits are off")
	}
	if got.Version != advice.RulesVersion+"+7" {
		t.Errorf("version %q", got.Version)
	}
	if err := got.Check(); err != nil {
		t.Error(err)
	}
	if s := setreview.NewSetting(ruleOf(t, advice.RuleUnsteady), want); !s.Equal(club.Settings[0]) {
		t.Errorf("to have these numbers %+v is set", s)
	}
}

// A log may hold numbers that no page would take: such a rule is as it comes.
func TestRules_PassesOverWhatCannotBeWorkedWith(t *testing.T) {
	got := setreview.AdviserRules(drill.ClubRules{Settings: []drill.RuleSetting{{Rule: string(advice.RuleSideScratch), Step: new(99.0)}}})
	if err := got.Check(); err != nil || got.Numbers[advice.RuleSideScratch] != ruleOf(t, advice.RuleSideScratch).Numbers {
		t.Errorf("%v: %+v", err, got.Numbers[advice.RuleSideScratch])
	}
}

// Whatever stands in the database, balls off the table are spoken of.
func TestRules_SafetyHasAFloor(t *testing.T) {
	danger := ruleOf(t, advice.RuleDanger)
	lax := drill.ClubRules{Revision: 1, Settings: []drill.RuleSetting{{
		Rule: string(danger.Name), On: new(false), Line: new(0.9), Certainty: new(0.999), Onward: new(0.999), Step: new(0.01), MinBreaks: new(400),
	}}}
	setup := storetest.StandardDrill()
	set := drill.Set{Name: "a", Table: "North", Kind: setup.Kind, Setup: setup.Setup}
	for n := 1; n <= 10; n++ {
		b := storetest.NewBreak(n).Break
		if n <= 3 {
			b.Cue = drill.CueEnd{How: drill.OffTable}
		}
		set.Breaks = append(set.Breaks, b)
	}
	a := advice.Judge([]drill.Set{set}, setreview.NewBrief(store.Case{Rules: lax}))
	if a.Prescription == nil || a.Prescription.Rule != advice.RuleDanger {
		t.Errorf("three of ten off the table: %s (%s)", a.Verdict, a.Says)
	}
	n := danger.Numbers
	n.On, n.Line, n.Certainty, n.Onward, n.Step, n.MinBreaks = false, 0.11, 0.91, 0.91, 0.4, 11
	var problems drill.Problems
	if err := setreview.CheckNumbers(danger, n); !errors.As(err, &problems) {
		t.Fatalf("laxer than the floor: %v", err)
	}
	for _, number := range []string{"on", "line", "certainty", "onward", "step", "min_breaks"} {
		if problems.MessageFor("balls-off-table."+number) == "" {
			t.Errorf("nothing is said of %s: %v", number, problems)
		}
	}
	stricter := danger.Numbers
	stricter.Line, stricter.Certainty = 0.02, 0.7
	if err := setreview.CheckNumbers(danger, stricter); err != nil {
		t.Errorf("stricter: %v", err)
	}
}

func TestCheck_RefusesWhatIsNoNumber(t *testing.T) {
	for _, r := range advice.EverySetting() {
		n := r.Numbers
		n.Line = math.NaN()
		var problems drill.Problems
		if err := setreview.CheckNumbers(r, n); !errors.As(err, &problems) || problems.MessageFor(string(r.Name)+".line") == "" {
			t.Errorf("%s with no number: %v", r.Name, err)
		}
	}
}

// The advice that is kept names the club's revision, and the club's numbers
// decide.
func TestJudge_ByTheClubsNumbers(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	off := []drill.RuleSetting{{Rule: string(advice.RuleMissBalance), On: new(false)}}
	if _, err := sc.Store.SaveRules(t.Context(), sc.Coach, 0, off); err != nil {
		t.Fatal(err)
	}
	set := tooCentral(t, sc, sc.StudentActor(0))
	if p := set.Prescription; p != nil && p.Rule == string(advice.RuleMissBalance) {
		t.Errorf("switched off, yet it speaks: %s", p.Reason)
	}
	if set.Advice.RulesVersion != advice.RulesVersion+"+1" {
		t.Errorf("the advice names the rules %q", set.Advice.RulesVersion)
	}
}
