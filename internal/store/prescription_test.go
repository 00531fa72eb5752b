package store_test

import (
	"errors"
	"reflect"
	"sync"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

// proposed records and closes a set whose advice is to move the cue ball to x.
func proposed(t *testing.T, sc storetest.Scene, student store.Actor, x table.Inches) store.Prescription {
	t.Helper()
	set := sc.RecordBreaks(t, student, 10)
	sc.CloseSet(t, student, set, x)
	p := must(sc.Store.GetSet(t.Context(), sc.Coach, set))(t).Prescription
	if p == nil || p.State != store.Proposed {
		t.Fatalf("closing left %+v", p)
	}
	return *p
}

// todo is what the student is to do on a kind of table now.
func todo(t *testing.T, sc storetest.Scene, student store.Actor, k table.Kind) store.Instruction {
	t.Helper()
	return must(sc.Store.GetToday(t.Context(), student))(t).Tasks[0].InstructionOn(k)
}

func state(t *testing.T, sc storetest.Scene, p store.Prescription) store.State {
	t.Helper()
	return must(sc.Store.GetSet(t.Context(), sc.Coach, p.Set))(t).Prescription.State
}

func TestPrescription_FromProposalToHelped(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile, k := t.Context(), sc.StudentActor(0), sc.Table.Kind
	p := proposed(t, sc, odile, -16)

	if n := todo(t, sc, odile, k); n.Setup.Cue.X != -18 || !store.IsZero(n.Prescription) {
		t.Errorf("a proposal changed what is to be done: %+v", n)
	}
	if err := sc.Store.DecidePrescription(ctx, sc.Coach, p.ID, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	if n := todo(t, sc, odile, k); n.Setup.Cue.X != -16 || n.Prescription != p.ID {
		t.Errorf("approved, the next setup is %+v", n)
	}
	for i, want := range map[int]bool{0: true, 1: false} {
		task := must(sc.Store.GetToday(ctx, sc.StudentActor(i)))(t).Tasks[0]
		if c := task.ChangeOn(k); (c != nil) != want || want && c.ID != p.ID {
			t.Errorf("the drill's change of %s is %+v", sc.Students[i].Name, c)
		}
	}
	if n := todo(t, sc, sc.StudentActor(1), k); n.Setup.Cue.X != -18 {
		t.Errorf("approved for one student, another is told %+v", n)
	}
	tight := k
	tight.CornerMouth = 4.25
	if n := todo(t, sc, odile, tight); n.Setup.Cue.X != -18 {
		t.Errorf("approved on one kind of table, on another it is %+v", n)
	}

	set := sc.RecordBreaks(t, odile, 10)
	if got := state(t, sc, p); got != store.InTrial {
		t.Errorf("with the first set started it is %q", got)
	}
	err := sc.Store.CloseSet(ctx, odile, set, func(c store.Case) (store.Judgement, error) {
		if c.InTrial != p.ID || len(c.Sets) != 2 || c.Sets[1].Setup.Cue.X != -16 {
			t.Errorf("the judge is told of trial %v and %d sets", c.InTrial, len(c.Sets))
		}
		return store.Judgement{Verdict: "keep", JSON: []byte("{}"), RulesVersion: "1", Outcome: store.Helped}, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if got := state(t, sc, p); got != store.Helped {
		t.Errorf("after the trial it is %q", got)
	}
	if n := todo(t, sc, odile, k); n.Setup.Cue.X != -16 {
		t.Errorf("what helped was forgotten: %+v", n)
	}
	next := sc.RecordBreaks(t, odile, 10)
	for id, settled := range map[store.SetID]bool{set: false, next: true} {
		if one := must(sc.Store.GetSet(ctx, odile, id))(t); one.Under == nil || one.Under.ID != p.ID || one.SettledBefore != settled {
			t.Errorf("set %v is under %+v, settled before it: %v", id, one.Under, one.SettledBefore)
		}
	}
	own := must(sc.Store.StartSet(ctx, odile, store.NewSet{Table: sc.Table.ID, Training: "As it was", Setup: p.Before}))(t)
	if under := must(sc.Store.GetSet(ctx, odile, own.ID))(t).Under; under != nil {
		t.Errorf("broken as before it, a set is under %+v", under)
	}
}

func TestDecide_ChangedAndDeclined(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile, wen := t.Context(), sc.StudentActor(0), sc.StudentActor(2)
	changed, declined := proposed(t, sc, wen, 16), proposed(t, sc, odile, -16)

	own := changed.Before
	own.Cue.X = 17
	if err := sc.Store.DecidePrescription(ctx, sc.Coach, changed.ID, store.Decision{Answer: store.Changed, Setup: own, Note: "Halfway."}); err != nil {
		t.Fatal(err)
	}
	if n := todo(t, sc, wen, sc.Table.Kind); n.Setup != own {
		t.Errorf("changed to %+v, told %+v", own, n.Setup)
	}
	if err := sc.Store.DecidePrescription(ctx, sc.Coach, declined.ID, store.Decision{Answer: store.Declined}); err != nil {
		t.Fatal(err)
	}
	if n := todo(t, sc, odile, sc.Table.Kind); n.Setup.Cue.X != -18 {
		t.Errorf("declined, yet told %+v", n)
	}
	for student, want := range map[store.PersonID]store.OverruledProposal{
		wen.Person:   {Rule: "wing-miss-balance", Table: "North 2", Under: changed.Before, Breaks: 10, Instead: own},
		odile.Person: {Rule: "wing-miss-balance", Table: "North 2", Under: declined.Before, Breaks: 10},
	} {
		h := must(sc.Store.GetHistory(ctx, sc.Coach, student))(t)
		if len(h.Overruled) != 1 || h.Overruled[0] != want {
			t.Errorf("overruled %+v, want %+v", h.Overruled, want)
		}
	}
	impossible := own
	impossible.Tip = 0.9
	third := proposed(t, sc, sc.StudentActor(1), -16)
	var problems drill.Problems
	err := sc.Store.DecidePrescription(ctx, sc.Coach, third.ID, store.Decision{Answer: store.Changed, Setup: impossible})
	if !errors.As(err, &problems) || problems.MessageFor("tip") == "" {
		t.Errorf("changed to a miscue: %v", err)
	}
}

func TestDecide_OneAnswerCounts(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t, store.WithConnections(8))
	ctx := t.Context()
	p := proposed(t, sc, sc.StudentActor(0), -16)
	var coaches sync.WaitGroup
	answers := make([]error, 8)
	for i := range answers {
		answer := store.Approved
		if i%2 == 1 {
			answer = store.Declined
		}
		coaches.Go(func() { answers[i] = sc.Store.DecidePrescription(ctx, sc.Coach, p.ID, store.Decision{Answer: answer}) })
	}
	coaches.Wait()
	got := must(sc.Store.GetSet(ctx, sc.Coach, p.Set))(t).Prescription.Decision
	for i, err := range answers {
		won := (got == store.Approved) == (i%2 == 0)
		if won && err != nil || !won && !errors.Is(err, store.ErrConflict) {
			t.Errorf("decided %q, answer %d: %v", got, i, err)
		}
	}
	if err := sc.Store.DecidePrescription(ctx, sc.StudentActor(0), p.ID, store.Decision{Answer: got}); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student decides: %v", err)
	}
	sc.RecordBreaks(t, sc.StudentActor(0), 1) // perhaps in trial now
	if err := sc.Store.DecidePrescription(ctx, sc.Coach, p.ID, store.Decision{Answer: got}); err != nil {
		t.Errorf("the same answer once the trial has begun: %v", err)
	}
}

func TestPropose_SupersedesWhatNobodyDecided(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	old := proposed(t, sc, sc.StudentActor(0), -16)
	others := proposed(t, sc, sc.StudentActor(1), -16)
	newer := proposed(t, sc, sc.StudentActor(0), -14)
	pending := must(sc.Store.ListPendingPrescriptions(t.Context(), sc.Coach))(t)
	if len(pending) != 2 || pending[0].ID != others.ID || pending[1].ID != newer.ID {
		t.Errorf("pending: %+v", pending)
	}
	err := sc.Store.DecidePrescription(t.Context(), sc.Coach, old.ID, store.Decision{Answer: store.Approved})
	if !errors.Is(err, store.ErrConflict) {
		t.Errorf("the old proposal is decided: %v", err)
	}
}

// A phone that was out of reach breaks under the setup it showed.
func TestStartSet_UnderTheSetupThatWasShown(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile := t.Context(), sc.StudentActor(0)
	p := proposed(t, sc, odile, -16)
	if err := sc.Store.DecidePrescription(ctx, sc.Coach, p.ID, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	set := must(sc.Store.StartSet(ctx, odile, store.NewSet{Assignment: sc.Assignment, Table: sc.Table.ID, Setup: p.Before}))(t)
	if set.Setup != p.Before || state(t, sc, p) != store.Approved {
		t.Errorf("under %+v the change is %q", set.Setup, state(t, sc, p))
	}
	bad := p.Before
	bad.Cue.Y = 60
	var problems drill.Problems
	_, err := sc.Store.StartSet(ctx, odile, store.NewSet{Assignment: sc.Assignment, Table: sc.Table.ID, Setup: bad})
	if !errors.As(err, &problems) {
		t.Errorf("a break from beyond the head string: %v", err)
	}
}

// What was decided holds for the drill that replaced the one it was decided
// for, and turns round with the student.
func TestNext_FollowsTheDrillAndTheStudent(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile := t.Context(), sc.StudentActor(0)
	p := proposed(t, sc, odile, -16)
	if err := sc.Store.DecidePrescription(ctx, sc.Coach, p.ID, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	longer := sc.Drill.Drill
	longer.Breaks = 20
	replaced := must(sc.Store.SaveDrill(ctx, sc.Coach, sc.Drill.ID, longer))(t)
	must(sc.Store.AssignDrill(ctx, sc.Coach, store.Assignment{Drill: replaced.ID, Class: sc.Class}))(t)
	sc.ChangeStudents(t, store.RosterChange{Kind: store.SetSides, Side: table.Right}, odile.Person)
	tasks := must(sc.Store.GetToday(ctx, odile))(t).Tasks
	if len(tasks) != 2 {
		t.Fatalf("%d tasks", len(tasks))
	}
	n := tasks[1].InstructionOn(sc.Table.Kind)
	if n.Breaks != 20 || n.Prescription != p.ID || n.Setup != p.After.Mirror() {
		t.Errorf("the drill that replaced it: %+v", n)
	}
}

func TestNext_CarriesTheDrillToTheTable(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	n := todo(t, sc, sc.StudentActor(0), table.SevenFoot())
	if n.Setup.Cue.Y != table.SevenFoot().HeadString() || n.Setup.Check(table.SevenFoot()) != nil || n.Window.Check(table.SevenFoot()) != nil {
		t.Errorf("on a 7-foot table: %+v", n)
	}
}

// What a proposal says is kept as data; of one that is words alone, the words.
func TestProposal_KeepsWhatItSaysAsData(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	for i, proposal := range []say.Proposal{{}, {Reason: say.Statement{Kind: say.KeptSetup, Count: 3}}} {
		student := sc.StudentActor(i)
		set := sc.RecordBreaks(t, student, 10)
		judge := func(c store.Case) (store.Judgement, error) {
			judgement, err := storetest.ProposeMove(-16)(c)
			judgement.Proposal.Wording = proposal
			return judgement, err
		}
		if err := sc.Store.CloseSet(t.Context(), student, set, judge); err != nil {
			t.Fatal(err)
		}
		p := must(sc.Store.GetSet(t.Context(), sc.Coach, set))(t).Prescription
		want := proposal.Reason
		if want.Kind == "" {
			want = say.KeptWords(p.Reason)
		}
		if !reflect.DeepEqual(p.Wording.Reason, want) {
			t.Errorf("kept %+v, want %+v", p.Wording.Reason, want)
		}
	}
}
