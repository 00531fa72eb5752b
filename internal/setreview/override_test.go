package setreview_test

import (
	"testing"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// newCentralScene is a scene whose drill is broken from a foot beside the middle.
func newCentralScene(t *testing.T) storetest.Scene {
	t.Helper()
	sc, d := storetest.NewScene(t), storetest.StandardDrill()
	d.Setup.Cue.X = -12
	central, err := sc.Store.SaveDrill(t.Context(), sc.Coach, store.DrillID{}, d)
	if err != nil {
		t.Fatal(err)
	}
	sc.Assignment, err = sc.Store.AssignDrill(t.Context(), sc.Coach, store.Assignment{Drill: central.ID, Class: sc.Class})
	if err != nil {
		t.Fatal(err)
	}
	return sc
}

// tooCentral records a set of ten of which seven misses met the side rail and
// three wing balls fell, closes it with the real adviser and gives it back.
func tooCentral(t *testing.T, sc storetest.Scene, student store.Actor) store.Set {
	t.Helper()
	ctx, s := t.Context(), sc.Store
	set := sc.StartSet(t, student)
	for n := 1; n <= 10; n++ {
		b := drill.Break{
			Number: n, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: -2, Y: 40}}, CuePath: drill.PathBack,
			Rails: drill.ObservedCount(6), WingMiss: drill.MissSideRail,
			Pocketed: []drill.Pocketed{{Ball: set.Setup.HeadBall(), Pocket: table.SideRight}},
		}
		if n > 7 {
			b.WingMiss = ""
			b.Pocketed = []drill.Pocketed{{Ball: set.Setup.WingBall(), Pocket: set.Setup.WingPocket()}}
		}
		if _, err := s.SaveBreak(ctx, student, set.ID, store.Break{ID: store.NewID[store.BreakID](), Revision: 1, Break: b}); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.CloseSet(ctx, student, set.ID, setreview.JudgeCase); err != nil {
		t.Fatal(err)
	}
	closed, err := s.GetSet(ctx, sc.Coach, set.ID)
	if err != nil {
		t.Fatal(err)
	}
	return closed
}

func decide(t *testing.T, sc storetest.Scene, p *store.Prescription, d store.Decision) {
	t.Helper()
	if p == nil || p.Rule != string(advice.RuleMissBalance) {
		t.Fatalf("seven misses at the side rail led to %+v", p)
	}
	if err := sc.Store.DecidePrescription(t.Context(), sc.Coach, p.ID, d); err != nil {
		t.Fatal(err)
	}
}

// What a coach declined is not argued again until there are twice as many
// breaks of it, for students of either side.
func TestOverride_DeclinedRestsUntilTheEvidenceDoubles(t *testing.T) {
	t.Parallel()
	sc := newCentralScene(t)
	for name, student := range map[string]store.Actor{"left": sc.StudentActor(0), "right": sc.StudentActor(2)} {
		tooCentral(t, sc, student)
		decide(t, sc, tooCentral(t, sc, student).Prescription, store.Decision{Answer: store.Declined}) // on twenty breaks
		third := tooCentral(t, sc, student)
		if third.Prescription != nil {
			t.Errorf("%s: declined on 20 breaks, argued again on 30: %s", name, third.Prescription.Reason)
		}
		// The pattern is still told: the coach's word silences the argument, not the facts.
		advised, err := setreview.ReadAdvice(third.Advice)
		if err != nil {
			t.Fatal(err)
		}
		if finding := findingOf(advised, advice.RuleMissBalance); finding == nil || finding.Count != 21 || finding.Of != 21 {
			t.Errorf("%s: the pattern is told as %+v", name, finding)
		}
		fourth := tooCentral(t, sc, student)
		// Place and contact make the same point: both turn the wing ball.
		if p := fourth.Prescription; p == nil || p.Rule != string(advice.RuleMissBalance) && p.Rule != string(advice.RuleThrownWide) {
			t.Errorf("%s: on 40 breaks the point may be made again, but it is %+v", name, p)
		}
	}
}

// The coach's own setup is what is done next, and the point rests there too.
func TestOverride_ChangedIsDoneAndRests(t *testing.T) {
	t.Parallel()
	sc := newCentralScene(t)
	odile := sc.StudentActor(0)
	first := tooCentral(t, sc, odile)
	own := first.Setup
	own.Cue.X = -14
	decide(t, sc, first.Prescription, store.Decision{Answer: store.Changed, Setup: own})
	second := tooCentral(t, sc, odile)
	if second.Setup != own {
		t.Fatalf("the next set was broken from %+v, not as the coach chose", second.Setup)
	}
	if p := second.Prescription; p != nil && p.Rule == string(advice.RuleMissBalance) {
		t.Errorf("ten breaks under the coach's own setup, and the same point again: %s", p.Reason)
	}
	third := tooCentral(t, sc, odile)
	if p := third.Prescription; p == nil || p.Rule != string(advice.RuleMissBalance) {
		t.Errorf("twenty breaks under it, twice what it was decided on: %+v", p)
	}
}

func findingOf(a advice.Advice, rule advice.RuleName) *advice.Finding {
	for i := range a.Findings {
		if a.Findings[i].Rule == rule {
			return &a.Findings[i]
		}
	}
	return nil
}
