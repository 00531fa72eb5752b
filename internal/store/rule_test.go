package store_test

import (
	"errors"
	"math"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

func TestRules_EachChangeIsKept(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	if none := must(s.GetRules(ctx, sc.Coach))(t); none.Revision != 0 || len(none.Settings) != 0 {
		t.Errorf("a new club has set %+v", none)
	}
	louder := drill.RuleSetting{Rule: "unsteady", Line: new(0.3), MinBreaks: new(12)}
	off := drill.RuleSetting{Rule: "dry-break", On: new(false)}
	saved := must(s.SaveRules(ctx, sc.Coach, 0, []drill.RuleSetting{louder, off}))(t)
	if saved.Revision != 1 || !saved.SettingOf("unsteady").Equal(louder) || !saved.SettingOf("dry-break").Equal(off) {
		t.Errorf("saved %+v", saved)
	}
	// Back to the standard is a change like any other.
	saved = must(s.SaveRules(ctx, sc.Coach, 1, []drill.RuleSetting{{Rule: "unsteady"}}))(t)
	if saved.Revision != 2 || !saved.SettingOf("unsteady").IsStandard() || !saved.SettingOf("dry-break").Equal(off) {
		t.Errorf("back to the standard: %+v", saved)
	}
	changes := must(s.ListRuleChanges(ctx, sc.Coach))(t)
	if len(changes) != 3 || !changes[0].IsStandard() || changes[0].Revision != 2 || !changes[2].Equal(louder) {
		t.Fatalf("changes %+v", changes)
	}
	if c := changes[0]; c.By != sc.Coach.Person || c.ByName != "Ines" || time.Since(c.At) > time.Hour {
		t.Errorf("changed by %q at %v", c.ByName, c.At)
	}
}

func TestSaveRules_TwoCoaches(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t, store.WithConnections(8))
	ctx, s := t.Context(), sc.Store
	wanted := []drill.RuleSetting{{Rule: "unsteady", Line: new(0.3)}}
	must(s.SaveRules(ctx, sc.Coach, 0, wanted))(t)
	if again, err := s.SaveRules(ctx, sc.Coach, 0, wanted); err != nil || again.Revision != 1 {
		t.Errorf("a second click: %+v, %v", again, err)
	}
	if _, err := s.SaveRules(ctx, sc.Coach, 0, []drill.RuleSetting{{Rule: "unsteady", Line: new(0.5)}}); !errors.Is(err, store.ErrStale) {
		t.Errorf("a stale page: %v", err)
	}
	if apart, err := s.SaveRules(ctx, sc.Coach, 0, []drill.RuleSetting{{Rule: "dry-break", Line: new(0.5)}}); err != nil || apart.Revision != 2 {
		t.Errorf("a page that is stale in another rule: %+v, %v", apart, err)
	}
	// Of many at once exactly one is first.
	errs := make([]error, 8)
	var coaches sync.WaitGroup
	for i := range errs {
		coaches.Go(func() {
			_, errs[i] = s.SaveRules(ctx, sc.Coach, 2, []drill.RuleSetting{{Rule: "no-shot", MinBreaks: new(20 + i)}})
		})
	}
	coaches.Wait()
	won := 0
	for _, err := range errs {
		if err == nil {
			won++
		} else if !errors.Is(err, store.ErrStale) {
			t.Error(err)
		}
	}
	if r := must(s.GetRules(ctx, sc.Coach))(t); won != 1 || r.Revision != 3 {
		t.Errorf("%d of 8 changes were saved, at revision %d", won, r.Revision)
	}
}

func TestSaveRules_RefusesWhatNoRuleCanHave(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	for field, bad := range map[string]drill.RuleSetting{
		"x.line":       {Rule: "x", Line: new(math.NaN())},
		"x.certainty":  {Rule: "x", Certainty: new(1e9)},
		"x.onward":     {Rule: "x", Onward: new(-0.7)},
		"x.step":       {Rule: "x", Step: new(math.Inf(1))},
		"x.min_breaks": {Rule: "x", MinBreaks: new(-1)},
		"rule":         {Rule: strings.Repeat("x", 61)},
	} {
		var problems drill.Problems
		if _, err := sc.Store.SaveRules(t.Context(), sc.Coach, 0, []drill.RuleSetting{bad}); !errors.As(err, &problems) || problems.MessageFor(field) == "" {
			t.Errorf("%s: %v", field, err)
		}
	}
	twice := []drill.RuleSetting{{Rule: "x", MinBreaks: new(3)}, {Rule: "x", MinBreaks: new(4)}}
	if _, err := sc.Store.SaveRules(t.Context(), sc.Coach, 0, twice); err == nil {
		t.Error("a rule set twice at once is accepted")
	}
	if r := must(sc.Store.GetRules(t.Context(), sc.Coach))(t); r.Revision != 0 {
		t.Errorf("something was saved: %+v", r)
	}
}

func TestRules_AreTheCoachsOwn(t *testing.T) {
	t.Parallel()
	mine := storetest.NewScene(t)
	other := storetest.AddScene(t, mine.Store)
	ctx, s := t.Context(), mine.Store
	must(s.SaveRules(ctx, mine.Coach, 0, []drill.RuleSetting{{Rule: "unsteady", Line: new(0.3)}}))(t)
	if r := must(s.GetRules(ctx, other.Coach))(t); r.Revision != 0 || len(r.Settings) != 0 {
		t.Errorf("another club reads %+v", r)
	}
	odile := mine.StudentActor(0)
	_, get := s.GetRules(ctx, odile)
	_, list := s.ListRuleChanges(ctx, odile)
	_, save := s.SaveRules(ctx, odile, 1, nil)
	_, cases := s.ListPastCases(ctx, odile, time.Time{}, 10)
	for _, err := range []error{get, list, save, cases} {
		if !errors.Is(err, store.ErrNotAllowed) {
			t.Errorf("a student: %v", err)
		}
	}
}

// What the adviser follows is read for a student by their coach and by themself.
func TestGetRulesOfAdvice_ForOneStudent(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	set := drill.RuleSetting{Rule: "unsteady", Line: new(0.3)}
	must(s.SaveRules(ctx, sc.Coach, 0, []drill.RuleSetting{set}))(t)
	for _, who := range []store.Actor{sc.Coach, odile} {
		if rules := must(s.GetRulesOfAdvice(ctx, who, odile.Person))(t); !rules.SettingOf("unsteady").Equal(set) {
			t.Errorf("a %s reads %+v", who.Role, rules)
		}
	}
	for name, who := range map[string]store.Actor{"another student": sc.StudentActor(1), "another club's coach": storetest.AddScene(t, s).Coach} {
		if _, err := s.GetRulesOfAdvice(ctx, who, odile.Person); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The judge gets the club's settings, whoever closes the set.
func TestCloseSet_JudgesByTheClubsRules(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	set := drill.RuleSetting{Rule: "unsteady", Line: new(0.3)}
	must(sc.Store.SaveRules(t.Context(), sc.Coach, 0, []drill.RuleSetting{set}))(t)
	for _, who := range []store.Actor{sc.StudentActor(0), sc.Coach} {
		id, asked := sc.RecordBreaks(t, sc.StudentActor(0), 3), store.Case{}
		err := sc.Store.CloseSet(t.Context(), who, id, func(c store.Case) (store.Judgement, error) {
			asked = c
			return store.Judgement{Verdict: "more", JSON: []byte("{}"), RulesVersion: "1+1"}, nil
		})
		if err != nil || asked.Rules.Revision != 1 || !asked.Rules.SettingOf("unsteady").Equal(set) {
			t.Errorf("closed by a %s: the judge got %+v (%v)", who.Role, asked.Rules, err)
		}
	}
}

// A past case is what the judge was given when the set was closed, though more
// has happened since.
func TestListPastCases_AsTheyWere(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile, wen := t.Context(), sc.Store, sc.StudentActor(0), sc.StudentActor(2)
	judged := map[store.SetID]store.Case{}
	end := func(who store.Actor, id store.SetID, x table.Inches) {
		t.Helper()
		err := s.CloseSet(ctx, who, id, func(c store.Case) (store.Judgement, error) {
			judged[c.Set] = c
			return storetest.ProposeMove(x)(c)
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	early, late := sc.RecordBreaks(t, odile, 10), sc.RecordBreaks(t, odile, 10)
	end(odile, late, -16) // closed before the one that was started first
	p := must(s.GetSet(ctx, sc.Coach, late))(t).Prescription
	if err := s.DecidePrescription(ctx, sc.Coach, p.ID, store.Decision{Answer: store.Declined}); err != nil {
		t.Fatal(err)
	}
	end(odile, early, -16)
	narrow := sc
	d := storetest.StandardDrill()
	d.Window.Right, d.Targets.Wing = 0, 0.9
	narrow.Assignment = must(s.AssignDrill(ctx, sc.Coach, store.Assignment{Drill: must(s.SaveDrill(ctx, sc.Coach, store.DrillID{}, d))(t).ID, Class: sc.Class}))(t)
	end(wen, narrow.RecordBreaks(t, wen, 7), 18)
	must(0, s.CloseSet(ctx, odile, sc.StartSet(t, odile).ID, storetest.ProposeMove(-16)))(t) // without breaks
	end(odile, sc.RecordBreaks(t, odile, 4), -18)
	hour := time.Now().Add(-time.Hour)
	past := must(s.ListPastCases(ctx, sc.Coach, hour, 10))(t)
	if len(past.Cases) != 4 || past.Left != 0 {
		t.Fatalf("%d cases, %d left", len(past.Cases), past.Left)
	}
	for _, c := range past.Cases {
		want := judged[c.Set]
		if !slices.Equal(c.IDs, want.IDs) || !reflect.DeepEqual(c.Sets, want.Sets) || !slices.Equal(c.Overruled, want.Overruled) ||
			c.Window != want.Window || c.Targets != want.Targets {
			t.Errorf("%s's case is not what the judge was given:\n%+v\n%+v", c.Sets[0].Student, c, want)
		}
	}
	if o := past.Cases[0].Overruled; len(o) != 1 || o[0].Breaks != 10 {
		t.Errorf("decided on ten breaks: %+v", o)
	}
	if few := must(s.ListPastCases(ctx, sc.Coach, hour, 1))(t); len(few.Cases) != 1 || few.Left != 3 || few.Cases[0].Set != past.Cases[0].Set {
		t.Errorf("one at most: %d, %d left", len(few.Cases), few.Left)
	}
	if none := must(s.ListPastCases(ctx, sc.Coach, time.Now().Add(time.Hour), 10))(t); len(none.Cases) != 0 || none.Left != 0 {
		t.Errorf("none since tomorrow: %+v", none)
	}
	if none := must(s.ListPastCases(ctx, sc.Coach, hour, -1))(t); len(none.Cases) != 0 {
		t.Errorf("fewer than none at most: %d", len(none.Cases))
	}
	other := storetest.AddScene(t, s)
	if theirs := must(s.ListPastCases(ctx, other.Coach, hour, 10))(t); len(theirs.Cases) != 0 {
		t.Errorf("another club sees %d", len(theirs.Cases))
	}
}

// Breaks under a setup count for the decision though others came between.
func TestHistory_OverruledOnAllBreaksUnderTheSetup(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile := t.Context(), sc.StudentActor(0)
	sc.CloseSet(t, odile, sc.RecordBreaks(t, odile, 10), -18)
	moved := sc.Drill.Setup
	moved.Cue.X = -16
	there := must(sc.Store.StartSet(ctx, odile, store.NewSet{Assignment: sc.Assignment, Table: sc.Table.ID, Setup: moved}))(t)
	must(sc.Store.SaveBreak(ctx, odile, there.ID, storetest.NewBreak(1)))(t)
	sc.CloseSet(t, odile, there.ID, -16)
	p := proposed(t, sc, odile, -16)
	if err := sc.Store.DecidePrescription(ctx, sc.Coach, p.ID, store.Decision{Answer: store.Declined}); err != nil {
		t.Fatal(err)
	}
	h := must(sc.Store.GetHistory(ctx, sc.Coach, odile.Person))(t)
	if len(h.Overruled) != 1 || h.Overruled[0].Breaks != 20 {
		t.Errorf("overruled on %+v, want on 20 breaks", h.Overruled)
	}
}
