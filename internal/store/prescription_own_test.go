package store_test

import (
	"errors"
	"testing"
	"time"

	"breakwright/internal/coaching"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

// ownChange prescribes the coach's own place after a set.
func ownChange(t *testing.T, sc storetest.Scene, set store.SetID, x table.Inches) store.OwnChange {
	t.Helper()
	s := must(sc.Store.GetSet(t.Context(), sc.Coach, set))(t).Setup
	s.Cue.X = x
	own := store.OwnChange{ID: store.NewID[store.PrescriptionID](), Set: set, Setup: s, Note: "Watch the rail."}
	if err := sc.Store.DecideOwnChange(t.Context(), sc.Coach, own); err != nil {
		t.Fatal(err)
	}
	return own
}

// The coach's own change takes the place of a proposal, is what is done next, is
// told to the adviser, and can be taken back until it is played.
func TestDecideOwnChange_AndBack(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile, k := t.Context(), sc.StudentActor(0), sc.Table.Kind
	p := proposed(t, sc, odile, -16)
	own := ownChange(t, sc, p.Set, -15)
	if err := sc.Store.DecideOwnChange(ctx, sc.Coach, own); err != nil {
		t.Errorf("a second click: %v", err)
	}
	if n := todo(t, sc, odile, k); n.Setup.Cue.X != -15 || n.Prescription != own.ID {
		t.Errorf("next is %+v", n)
	}
	set := must(sc.Store.GetSet(ctx, sc.Coach, p.Set))(t)
	if len(set.Changes) != 2 || set.Changes[0].State != store.Superseded || !set.Prescription.IsOwn() || set.Prescription.Before.Cue.X != -18 {
		t.Errorf("the set tells %+v", set.Changes)
	}
	h := must(sc.Store.GetHistory(ctx, sc.Coach, odile.Person))(t)
	if len(h.Overruled) != 1 || h.Overruled[0].Instead.Cue.X != -15 || h.Overruled[0].Rule != "" {
		t.Errorf("the adviser is told %+v", h.Overruled)
	}
	decided := must(sc.Store.ListDecidedSince(ctx, sc.Coach, time.Now().Add(-time.Hour)))(t)
	if len(decided) != 1 || !decided[0].CanReopen || decided[0].CoachName != "Ines" {
		t.Errorf("decided lately: %+v", decided)
	}
	for range 2 {
		if err := sc.Store.ReopenDecision(ctx, sc.Coach, own.ID, storetest.ProposeMove(-16)); err != nil {
			t.Fatal(err)
		}
	}
	if n := todo(t, sc, odile, k); n.Setup.Cue.X != -18 || !store.IsZero(n.Prescription) {
		t.Errorf("taken back, next is %+v", n)
	}
	if got := must(sc.Store.GetPrescription(ctx, sc.Coach, p.ID))(t); got.State != store.Proposed {
		t.Errorf("the proposal it replaced is %q", got.State)
	}
	if err := sc.Store.DecideOwnChange(ctx, odile, own); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student prescribes: %v", err)
	}
}

// A change is made from what is broken now: from an older set of the drill, or of another
// drill under the same setup, who looks is led to the newest with breaks, and a change from
// the older one is refused. A set of another setup, or on another table, is its own newest.
func TestDecideOwnChange_OnlyFromTheNewestSet(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile := t.Context(), sc.StudentActor(0)
	older := proposed(t, sc, odile, -16).Set
	elsewhere := sc
	elsewhere.Table = must(sc.Store.SaveTable(ctx, sc.Coach, store.Table{Name: "South 2", Kind: table.Kind{Feet: 9, CornerMouth: 4.25, SideMouth: 5}}))(t)
	away := proposed(t, elsewhere, odile, -16).Set
	newest := proposed(t, sc, odile, -15).Set
	empty := sc.RecordBreaks(t, odile, 0)
	sc.CloseSet(t, odile, empty, -15)
	for seen, want := range map[store.SetID]store.SetID{older: newest, newest: newest, empty: newest, away: away} {
		if got := must(sc.Store.FindSetToChange(ctx, sc.Coach, seen))(t); got != want {
			t.Errorf("from %s a change is made from %s, want %s", seen, got, want)
		}
	}
	s := must(sc.Store.GetSet(ctx, sc.Coach, older))(t).Setup
	s.Cue.X = -13
	if err := sc.Store.DecideOwnChange(ctx, sc.Coach, store.OwnChange{Set: older, Setup: s}); !errors.Is(err, store.ErrConflict) {
		t.Errorf("from an older set: %v", err)
	}
	ownChange(t, sc, newest, -13)
	if _, err := sc.Store.FindSetToChange(ctx, odile, older); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student looks where a change is made: %v", err)
	}
}

// A proposal is named by when its set was begun, as the set's own page is.
func TestListPendingPrescriptions_NamesTheSetByItsBeginning(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	p := proposed(t, sc, sc.StudentActor(0), -16)
	set := must(sc.Store.GetSet(t.Context(), sc.Coach, p.Set))(t)
	pending := must(sc.Store.ListPendingPrescriptions(t.Context(), sc.Coach))(t)
	if len(pending) != 1 || !pending[0].SetStarted.Equal(set.Started) || set.Started.Equal(set.Closed) {
		t.Errorf("%+v, want the set begun at %s and closed at %s", pending, set.Started, set.Closed)
	}
}

func TestReopenDecision_UntilTheNextSet(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile := t.Context(), sc.StudentActor(0)
	p := proposed(t, sc, odile, -16)
	for _, answer := range []store.State{store.Approved, store.Declined, store.Approved} {
		if err := sc.Store.DecidePrescription(ctx, sc.Coach, p.ID, store.Decision{Answer: answer}); err != nil {
			t.Fatal(err)
		}
		if answer == store.Declined || len(must(sc.Store.ListPendingPrescriptions(ctx, sc.Coach))(t)) == 0 {
			if err := sc.Store.ReopenDecision(ctx, sc.Coach, p.ID, storetest.ProposeMove(-16)); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := sc.Store.DecidePrescription(ctx, sc.Coach, p.ID, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	if can := must(sc.Store.CanReopenDecision(ctx, sc.Coach, p.ID))(t); !can {
		t.Error("a decision that no set has carried cannot be taken back")
	}
	first := sc.RecordBreaks(t, odile, 10)
	got := must(sc.Store.GetPrescription(ctx, sc.Coach, p.ID))(t)
	if got.FirstSet != first || got.State != store.InTrial {
		t.Errorf("told by %v, %q", got.FirstSet, got.State)
	}
	if can := must(sc.Store.CanReopenDecision(ctx, sc.Coach, p.ID))(t); can {
		t.Error("a decision that a set has carried can be taken back")
	}
	if err := sc.Store.ReopenDecision(ctx, sc.Coach, p.ID, storetest.ProposeMove(-16)); !errors.Is(err, store.ErrConflict) {
		t.Errorf("taken back: %v", err)
	}
	if under := must(sc.Store.GetSet(ctx, odile, first))(t).Under; under == nil || under.ID != p.ID {
		t.Errorf("the set is under %+v", under)
	}
}

// A set that was closed while a decision stood rests on it: taken back, what that set says
// is said anew, and the older proposal gives way.
func TestReopenDecision_GivesWayToWhatANewerSetSays(t *testing.T) {
	t.Parallel()
	nothing := func(store.Case) (store.Judgement, error) {
		return store.Judgement{Verdict: "more", JSON: []byte(`{"verdict":"more"}`), RulesVersion: "1"}, nil
	}
	for says, c := range map[string]struct {
		judge   store.Judge
		because coaching.SupersededBy
	}{"another change": {storetest.ProposeMove(-14), coaching.NewerChange}, "the same again": {storetest.ProposeMove(-16), coaching.SameAgain}, "nothing": {nothing, coaching.NewerSet}} {
		t.Run(says, func(t *testing.T) {
			t.Parallel()
			sc := storetest.NewScene(t)
			ctx, odile := t.Context(), sc.StudentActor(0)
			p := proposed(t, sc, odile, -16)
			newer := sc.RecordBreaks(t, odile, 10) // begun before anything is decided
			if err := sc.Store.DecidePrescription(ctx, sc.Coach, p.ID, store.Decision{Answer: store.Approved}); err != nil {
				t.Fatal(err)
			}
			sc.CloseSet(t, odile, newer, -15)
			for range 2 { // a second click
				if err := sc.Store.ReopenDecision(ctx, sc.Coach, p.ID, c.judge); err != nil {
					t.Fatal(err)
				}
			}
			if got := must(sc.Store.GetPrescription(ctx, sc.Coach, p.ID))(t); got.State != store.Superseded || got.Because != c.because {
				t.Errorf("the older proposal is %s, because of %q", got.State, got.Because)
			}
			set := must(sc.Store.GetSet(ctx, odile, newer))(t)
			if one := set.Prescription; (one != nil && one.State == store.Proposed) != (says != "nothing") {
				t.Errorf("the newer set proposes %+v", one)
			}
		})
	}
}

// The counts of a trial are kept while it goes on, and another table closes it.
func TestInTrial_CountsAndAnotherTable(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile := t.Context(), sc.StudentActor(0)
	p := proposed(t, sc, odile, -16)
	if err := sc.Store.DecidePrescription(ctx, sc.Coach, p.ID, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	set := sc.RecordBreaks(t, odile, 10)
	counts := coaching.Counts{Measure: "wing ball", Before: 2, OfBefore: 10, Since: 5, OfSince: 10}
	err := sc.Store.CloseSet(ctx, odile, set, func(store.Case) (store.Judgement, error) {
		return store.Judgement{Verdict: "more", JSON: []byte("{}"), RulesVersion: "1", Counts: counts}, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if got := must(sc.Store.GetPrescription(ctx, sc.Coach, p.ID))(t); got.Counts != counts || got.State != store.InTrial {
		t.Errorf("%q with %+v", got.State, got.Counts)
	}
	small := must(sc.Store.SaveTable(ctx, sc.Coach, store.Table{Name: "South", Kind: table.SevenFoot()}))(t)
	must(sc.Store.StartSet(ctx, odile, store.NewSet{Assignment: sc.Assignment, Table: small.ID}))(t)
	if got := must(sc.Store.GetPrescription(ctx, sc.Coach, p.ID))(t); got.State != store.Superseded || got.Because != coaching.AnotherTable {
		t.Errorf("on another table it is %q (%q)", got.State, got.Because)
	}
	sc.StartSet(t, odile)
	if got := state(t, sc, p); got != store.InTrial {
		t.Errorf("back on the first it is %q", got)
	}
}

// The list of decisions says the same as each decision's own page of what can be taken back:
// one of each answer, before the next set has begun and after.
func TestListDecidedSince_SaysWhatCanBeTakenBack(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	answers := []store.Decision{{Answer: store.Approved}, {Answer: store.Declined}, {Answer: store.Changed}}
	since := time.Now().Add(-time.Hour)
	for i, d := range answers {
		who := sc.StudentActor(i)
		set := sc.RecordBreaks(t, who, 10)
		sc.CloseSet(t, who, set, -16)
		closed := must(s.GetSet(ctx, sc.Coach, set))(t)
		if d.Answer == store.Changed {
			d.Setup = closed.Setup
			d.Setup.Tip -= 0.05
		}
		if err := s.DecidePrescription(ctx, sc.Coach, closed.Prescription.ID, d); err != nil {
			t.Fatal(err)
		}
	}
	for _, want := range []bool{true, false} {
		decided := must(s.ListDecidedSince(ctx, sc.Coach, since))(t)
		for _, one := range decided {
			if can := must(s.CanReopenDecision(ctx, sc.Coach, one.ID))(t); one.CanReopen != want || can != want {
				t.Errorf("%s: the list says %v and the page %v, want %v", one.Decision, one.CanReopen, can, want)
			}
		}
		if len(decided) != len(answers) {
			t.Fatalf("%d decisions", len(decided))
		}
		for i := range answers {
			sc.StartSet(t, sc.StudentActor(i))
		}
	}
}
