package store_test

import (
	"errors"
	"sync"
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

// typed is a set of the scene's assignment as a coach types it for a student.
func typed(sc storetest.Scene, student int, breaks int) store.PaperSet {
	set := store.PaperSet{
		ID: store.NewID[store.SetID](), Student: sc.Students[student].ID, Assignment: sc.Assignment, Table: sc.Table.ID,
		At: time.Date(2026, 3, 2, 18, 5, 0, 0, time.UTC),
	}
	for n := 1; n <= breaks; n++ {
		set.Breaks = append(set.Breaks, storetest.NewBreak(n).Break)
	}
	return set
}

func TestTypeSet_IsTheStudentsClosedSet(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx := t.Context()
	want := typed(sc, 0, 10)
	set := must(sc.Store.SavePaperSet(ctx, sc.Coach, want, storetest.ProposeMove(-16)))(t)
	if set.Student != want.Student || set.Closed.IsZero() || len(set.Breaks) != 10 || !set.Started.Equal(want.At) || set.Name != "2026-03-02 18:05" {
		t.Errorf("typed in: %+v", set)
	}
	for _, b := range set.Breaks {
		if b.EditedBy != sc.Coach.Person || b.Revision != 1 {
			t.Errorf("break %d was typed by %v, as revision %d", b.Number, b.EditedBy, b.Revision)
		}
	}
	full := must(sc.Store.GetSet(ctx, sc.StudentActor(0), set.ID))(t)
	if full.Advice == nil || full.Prescription == nil || full.Prescription.Reason != "10 breaks were looked at." {
		t.Errorf("no advice was given: %+v", full.Advice)
	}
	progress := must(sc.Store.GetAssignmentProgress(ctx, sc.Coach, sc.Assignment))(t)
	for _, p := range progress {
		if done := p.Sets == 1 && p.Breaks == 10; done != (p.Student == want.Student) {
			t.Errorf("progress: %+v", p)
		}
	}
	// The counts that are kept are those of the breaks.
	stints := exported(t, sc, store.ExportScope{})
	if len(stints) != 1 || len(stints[0].Breaks) != 10 {
		t.Errorf("exported: %+v", stints)
	}
}

func TestTypeSet_TwiceIsOnce(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	want := typed(sc, 0, 7)
	var both sync.WaitGroup
	for range 2 { // two clicks at once
		both.Go(func() {
			if _, err := sc.Store.SavePaperSet(t.Context(), sc.Coach, want, storetest.ProposeMove(-18)); err != nil {
				t.Error(err)
			}
		})
	}
	both.Wait()
	if sets := must(sc.Store.ListSets(t.Context(), sc.Coach, want.Student))(t); len(sets) != 1 || sets[0].Breaks != 7 {
		t.Errorf("sets: %+v", sets)
	}
	other := want
	other.Breaks = append([]drill.Break(nil), want.Breaks...)
	other.Breaks[2].Note = "changed"
	if _, err := sc.Store.SavePaperSet(t.Context(), sc.Coach, other, storetest.ProposeMove(-18)); !errors.Is(err, store.ErrConflict) {
		t.Errorf("other breaks under the same form: %v", err)
	}
}

func TestTypeSet_RefusesAndKeepsNothing(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	other := storetest.AddScene(t, sc.Store)
	ctx := t.Context()
	try := func(v store.Actor, change func(*store.PaperSet)) error {
		set := typed(sc, 0, 3)
		change(&set)
		_, err := sc.Store.SavePaperSet(ctx, v, set, storetest.ProposeMove(-18))
		return err
	}
	for field, change := range map[string]func(*store.PaperSet){
		"2.cue":       func(s *store.PaperSet) { s.Breaks[1].Cue = drill.CueEnd{} },
		"3.wing_miss": func(s *store.PaperSet) { s.Breaks[2].WingMiss = "sideways" },
		"breaks":      func(s *store.PaperSet) { s.Breaks = nil },
	} {
		var p drill.Problems
		if err := try(sc.Coach, change); !errors.As(err, &p) || p.MessageFor(field) == "" {
			t.Errorf("%s: %v", field, err)
		}
	}
	var p drill.Problems
	if err := try(sc.Coach, func(s *store.PaperSet) { s.Breaks = typed(sc, 0, 11).Breaks }); !errors.As(err, &p) {
		t.Errorf("eleven of ten: %v", err)
	}
	if err := try(sc.Coach, func(s *store.PaperSet) { s.Breaks[0].Number = 5 }); !errors.As(err, &p) {
		t.Errorf("no break 1: %v", err)
	}
	for name, want := range map[string]struct {
		who    store.Actor
		change func(*store.PaperSet)
		kind   error
	}{
		"a student":                {sc.StudentActor(0), func(*store.PaperSet) {}, store.ErrNotAllowed},
		"another club's coach":     {other.Coach, func(*store.PaperSet) {}, store.ErrNotFound},
		"another club's student":   {sc.Coach, func(s *store.PaperSet) { s.Student = other.Students[0].ID }, store.ErrNotFound},
		"a coach as a student":     {sc.Coach, func(s *store.PaperSet) { s.Student = sc.Coach.Person }, store.ErrNotFound},
		"another club's table":     {sc.Coach, func(s *store.PaperSet) { s.Table = other.Table.ID }, store.ErrNotFound},
		"another club's drill":     {sc.Coach, func(s *store.PaperSet) { s.Assignment = other.Assignment }, store.ErrNotFound},
		"another student's own id": {sc.Coach, func(s *store.PaperSet) { s.ID = sc.RecordBreaks(t, sc.StudentActor(1), 1) }, store.ErrConflict},
	} {
		if err := try(want.who, want.change); !errors.Is(err, want.kind) {
			t.Errorf("%s: %v, want %v", name, err, want.kind)
		}
	}
	if sets := must(sc.Store.ListSets(ctx, sc.Coach, sc.Students[0].ID))(t); len(sets) != 0 {
		t.Errorf("something was kept: %+v", sets)
	}
	failing := errors.New("no advice today")
	_, err := sc.Store.SavePaperSet(ctx, sc.Coach, typed(sc, 0, 3), func(store.Case) (store.Judgement, error) { return store.Judgement{}, failing })
	if sets := must(sc.Store.ListSets(ctx, sc.Coach, sc.Students[0].ID))(t); !errors.Is(err, failing) || len(sets) != 0 {
		t.Errorf("a judge that fails: %v, %d sets", err, len(sets))
	}
}

// The sheets say what each student is to do: the right way round, with what was
// decided for them, on any kind of table.
func TestGetSheets(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx := t.Context()
	sc.CloseSet(t, sc.StudentActor(0), sc.RecordBreaks(t, sc.StudentActor(0), 10), -16)
	proposed := must(sc.Store.ListPendingPrescriptions(ctx, sc.Coach))(t)
	if err := sc.Store.DecidePrescription(ctx, sc.Coach, proposed[0].ID, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	sheets := must(sc.Store.GetSheets(ctx, sc.Coach, sc.Assignment))(t)
	if sheets.ClassName != "Thursday evening" || len(sheets.Students) != 3 {
		t.Fatalf("%+v", sheets)
	}
	for _, one := range sheets.Students {
		index := map[string]int{"Odile": 0, "Bram": 1, "Wen": 2}[one.Name]
		today := must(sc.Store.GetToday(ctx, sc.StudentActor(index)))(t)
		for _, k := range []table.Kind{sc.Table.Kind, table.SevenFoot()} {
			if got, want := one.Task.InstructionOn(k), today.Tasks[0].InstructionOn(k); got != want {
				t.Errorf("%s on %s: %+v, on the phone %+v", one.Name, k, got, want)
			}
		}
		changed := one.Task.InstructionOn(sc.Table.Kind).Setup != one.Task.UndecidedSetup(sc.Table.Kind)
		if changed != (one.Name == "Odile") {
			t.Errorf("%s: changed %v", one.Name, changed)
		}
	}
	if _, err := sc.Store.GetSheets(ctx, sc.StudentActor(0), sc.Assignment); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student: %v", err)
	}
	other := storetest.AddScene(t, sc.Store)
	if _, err := sc.Store.GetSheets(ctx, other.Coach, sc.Assignment); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("another club: %v", err)
	}
}
