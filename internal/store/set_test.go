package store_test

import (
	"errors"
	"strings"
	"sync"
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

func TestSaveBreak_RefusesTheEleventh(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	set := sc.RecordBreaks(t, sc.StudentActor(0), 10)
	_, err := sc.Store.SaveBreak(t.Context(), sc.StudentActor(0), set, storetest.NewBreak(11))
	var p drill.Problems
	if !errors.As(err, &p) || !strings.Contains(p.MessageFor("break"), "10 breaks") {
		t.Errorf("the eleventh break of ten: %v", err)
	}
	if got := must(sc.Store.GetSet(t.Context(), sc.StudentActor(0), set))(t); len(got.Breaks) != 10 {
		t.Errorf("the set has %d breaks", len(got.Breaks))
	}
}

func TestSaveBreak_Revisions(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	odile := sc.StudentActor(0)
	set := sc.StartSet(t, odile)
	first := storetest.NewBreak(1)
	with := func(revision int, note string) store.Break {
		b := first
		b.Revision, b.Note = revision, note
		return b
	}
	sameNumber := storetest.NewBreak(1)
	for i, step := range []struct {
		b    store.Break
		kept store.SaveOutcome
		err  error
	}{
		{with(1, ""), store.BreakAccepted, nil},
		{with(1, ""), store.BreakDuplicate, nil},
		{with(1, "other content"), "", store.ErrConflict},
		{with(3, "later"), store.BreakAccepted, nil},
		{with(3, "later"), store.BreakDuplicate, nil},
		{with(2, "late"), "", store.ErrStale},
		{sameNumber, "", store.ErrConflict},
	} {
		kept, err := sc.Store.SaveBreak(t.Context(), odile, set.ID, step.b)
		if kept != step.kept || !errors.Is(err, step.err) {
			t.Errorf("step %d: %q, %v; want %q, %v", i, kept, err, step.kept, step.err)
		}
	}
	got := must(sc.Store.GetSet(t.Context(), odile, set.ID))(t)
	if len(got.Breaks) != 1 || got.Breaks[0].Note != "later" || got.Breaks[0].Revision != 3 || got.Revision != 2 {
		t.Errorf("kept %+v at set revision %d", got.Breaks, got.Revision)
	}
}

// A break belongs to the set that it was recorded in, also where both are one student's.
func TestBreak_BelongsToItsSet(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile, s := t.Context(), sc.StudentActor(0), sc.Store
	first, second := sc.RecordBreaks(t, odile, 1), sc.RecordBreaks(t, odile, 0)
	b := must(s.GetSet(ctx, odile, first))(t).Breaks[0]
	b.Revision++
	if _, err := s.SaveBreak(ctx, odile, second, b); !errors.Is(err, store.ErrConflict) {
		t.Errorf("saved into another set: %v", err)
	}
	for name, id := range map[string]store.BreakID{"of another set": b.ID, "of none": store.NewID[store.BreakID]()} {
		if err := s.DeleteBreak(ctx, odile, second, id, b.Revision, ""); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("taken out, a break %s: %v", name, err)
		}
	}
	correction := store.BreakCorrection{Set: second, Break: b.ID, Revision: b.Revision - 1, Reason: "a slip"}
	if err := s.CorrectBreak(ctx, sc.Coach, correction, nil); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("corrected in another set: %v", err)
	}
	if got := must(s.GetSet(ctx, odile, first))(t).Breaks; len(got) != 1 || got[0].Revision != 1 {
		t.Errorf("its set has %+v", got)
	}
}

func TestSaveBreak_RefusesWhatCannotBe(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	set := sc.StartSet(t, sc.StudentActor(0))
	b := storetest.NewBreak(1)
	b.Pocketed = []drill.Pocketed{{Ball: 12, Pocket: table.FootLeft}}
	_, err := sc.Store.SaveBreak(t.Context(), sc.StudentActor(0), set.ID, b)
	var p drill.Problems
	if !errors.As(err, &p) || p.MessageFor("pocketed") == "" {
		t.Errorf("the 12 of a nine-ball rack: %v", err)
	}
}

// A note is counted in letters, also where one takes four bytes (RFC 3629, section 3).
func TestSaveBreak_NoteOfManyBytes(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	set := sc.StartSet(t, sc.StudentActor(0))
	b := storetest.NewBreak(1)
	b.Note = strings.Repeat("\U0001F3B1", drill.MaxNote)
	must(sc.Store.SaveBreak(t.Context(), sc.StudentActor(0), set.ID, b))(t)
	if kept := must(sc.Store.GetSet(t.Context(), sc.Coach, set.ID))(t).Breaks[0]; kept.Note != b.Note {
		t.Errorf("%d bytes of a note are kept, of %d", len(kept.Note), len(b.Note))
	}
	b.Revision, b.Note = 2, b.Note+"x"
	_, err := sc.Store.SaveBreak(t.Context(), sc.StudentActor(0), set.ID, b)
	var p drill.Problems
	if !errors.As(err, &p) || p.MessageFor("note") == "" {
		t.Errorf("one letter more: %v", err)
	}
}

func TestSaveBreak_OfACoachSaysSo(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	set := sc.RecordBreaks(t, sc.StudentActor(0), 1)
	b := must(sc.Store.GetSet(t.Context(), sc.Coach, set))(t).Breaks[0]
	b.Revision, b.Note = 2, "It was the 8."
	must(sc.Store.SaveBreak(t.Context(), sc.Coach, set, b))(t)
	got := must(sc.Store.GetSet(t.Context(), sc.StudentActor(0), set))(t).Breaks[0]
	if got.EditedBy != sc.Coach.Person || got.Note != b.Note {
		t.Errorf("%+v", got)
	}
}

func TestBreaks_OfOthersAreNotThere(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	set := sc.RecordBreaks(t, sc.StudentActor(0), 2)
	b := must(sc.Store.GetSet(t.Context(), sc.Coach, set))(t).Breaks[0]
	b.Revision = 2
	for name, v := range map[string]store.Actor{"a student of the class": sc.StudentActor(1), "another club's coach": storetest.AddScene(t, sc.Store).Coach} {
		if _, err := sc.Store.GetSet(t.Context(), v, set); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("%s gets the set: %v", name, err)
		}
		if _, err := sc.Store.SaveBreak(t.Context(), v, set, b); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("%s saves a break: %v", name, err)
		}
		if err := sc.Store.DeleteBreak(t.Context(), v, set, b.ID, 2, ""); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("%s deletes a break: %v", name, err)
		}
		if err := sc.Store.CloseSet(t.Context(), v, set, storetest.ProposeMove(-16)); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("%s closes the set: %v", name, err)
		}
		if err := sc.Store.PostMessage(t.Context(), v, store.MessageID{}, set, "Hello?"); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("%s asks: %v", name, err)
		}
		if sent, _ := sc.Store.PostToStudents(t.Context(), v, store.MessageID{}, []store.PersonID{sc.StudentActor(0).Person}, "Hello?"); sent != 0 {
			t.Errorf("%s writes to the student", name)
		}
		if _, err := sc.Store.GetHistory(t.Context(), v, sc.StudentActor(0).Person); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("%s gets the history: %v", name, err)
		}
	}
	// In a set of their own another's break id is no way in.
	mine := sc.StartSet(t, sc.StudentActor(1))
	if _, err := sc.Store.SaveBreak(t.Context(), sc.StudentActor(1), mine.ID, b); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("another's break saved into an own set: %v", err)
	}
}

func TestDeleteBreak_LeavesAGapToFill(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile := t.Context(), sc.StudentActor(0)
	set := sc.RecordBreaks(t, odile, 3)
	second := must(sc.Store.GetSet(ctx, odile, set))(t).Breaks[1]
	if err := sc.Store.DeleteBreak(ctx, odile, set, second.ID, 1, "miscounted"); !errors.Is(err, store.ErrStale) {
		t.Errorf("deleted under the revision that is kept: %v", err)
	}
	if err := sc.Store.DeleteBreak(ctx, odile, set, second.ID, 2, "miscounted"); err != nil {
		t.Fatal(err)
	}
	got := must(sc.Store.GetSet(ctx, odile, set))(t)
	if len(got.Breaks) != 2 || got.Breaks[1].Number != 3 || got.DrillSet().Breaks[1].Number != 2 {
		t.Errorf("after deleting the second of three: %+v", got.Breaks)
	}
	if err := got.DrillSet().Check(); err != nil {
		t.Errorf("what the adviser sees: %v", err)
	}
	if _, err := sc.Store.SaveBreak(ctx, odile, set, second); !errors.Is(err, store.ErrStale) {
		t.Errorf("a late copy of the deleted break: %v", err)
	}
	second.Revision = 2
	if _, err := sc.Store.SaveBreak(ctx, odile, set, second); !errors.Is(err, store.ErrStale) {
		t.Errorf("the same revision as the deletion: %v", err)
	}
	second.Revision = 3
	must(sc.Store.SaveBreak(ctx, odile, set, second))(t)
	if got := must(sc.Store.GetSet(ctx, odile, set))(t); len(got.Breaks) != 3 {
		t.Errorf("brought back, the set has %d breaks", len(got.Breaks))
	}
}

func TestClosedSet_StaysAsItIs(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile := t.Context(), sc.StudentActor(0)
	set := sc.RecordBreaks(t, odile, 9)
	sc.CloseSet(t, odile, set, -18)
	if _, err := sc.Store.SaveBreak(ctx, odile, set, storetest.NewBreak(10)); !errors.Is(err, store.ErrClosed) {
		t.Errorf("a break after closing: %v", err)
	}
	last := must(sc.Store.GetSet(ctx, odile, set))(t).Breaks[8]
	if err := sc.Store.DeleteBreak(ctx, odile, set, last.ID, 2, ""); !errors.Is(err, store.ErrClosed) {
		t.Errorf("deleting after closing: %v", err)
	}
	asked := false
	err := sc.Store.CloseSet(ctx, odile, set, func(store.Case) (store.Judgement, error) {
		asked = true
		return store.Judgement{}, nil
	})
	if err != nil || asked {
		t.Errorf("closed again: %v, judge asked %v", err, asked)
	}
}

func TestCloseSet_UndoneWhenTheJudgeFails(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	set := sc.RecordBreaks(t, sc.StudentActor(0), 10)
	failure := errors.New("out of chalk")
	err := sc.Store.CloseSet(t.Context(), sc.StudentActor(0), set, func(store.Case) (store.Judgement, error) { return store.Judgement{}, failure })
	if !errors.Is(err, failure) {
		t.Errorf("closed with %v", err)
	}
	if got := must(sc.Store.GetSet(t.Context(), sc.StudentActor(0), set))(t); !got.Closed.IsZero() || got.Advice != nil {
		t.Errorf("closed at %v with advice %v", got.Closed, got.Advice)
	}
}

// The second of two sets that are closed at once is judged with the first.
func TestCloseSet_OneAtATimeForAStudent(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile := t.Context(), sc.StudentActor(0)
	first, second := sc.RecordBreaks(t, odile, 2), sc.RecordBreaks(t, odile, 2)
	var closing sync.WaitGroup
	closeSecond := func() {
		err := sc.Store.CloseSet(ctx, odile, second, func(c store.Case) (store.Judgement, error) {
			if len(c.Sets) != 2 || c.IDs[0] != first || c.Set != second {
				t.Errorf("the second is judged on %v", c.IDs)
			}
			return storetest.ProposeMove(-18)(c)
		})
		if err != nil {
			t.Error(err)
		}
	}
	err := sc.Store.CloseSet(ctx, odile, first, func(c store.Case) (store.Judgement, error) {
		closing.Go(closeSecond)
		time.Sleep(50 * time.Millisecond) // time enough to overtake us, were there no lock
		return storetest.ProposeMove(-18)(c)
	})
	closing.Wait()
	if err != nil {
		t.Error(err)
	}
}

func TestCloseSet_WithoutBreaksAsksNobody(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	set := sc.StartSet(t, sc.StudentActor(0))
	err := sc.Store.CloseSet(t.Context(), sc.StudentActor(0), set.ID, func(store.Case) (store.Judgement, error) {
		return store.Judgement{}, errors.New("asked about nothing")
	})
	if err != nil {
		t.Fatal(err)
	}
	if got := must(sc.Store.GetSet(t.Context(), sc.StudentActor(0), set.ID))(t); got.Closed.IsZero() || got.Advice != nil {
		t.Errorf("closed at %v with advice %v", got.Closed, got.Advice)
	}
}

func TestStartSet_WhoMayNot(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	start := store.NewSet{Assignment: sc.Assignment, Table: sc.Table.ID}
	if _, err := s.StartSet(ctx, sc.Coach, start); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a coach: %v", err)
	}
	direct := must(s.AssignDrill(ctx, sc.Coach, store.Assignment{Drill: sc.Drill.ID, Students: []store.PersonID{sc.StudentActor(1).Person}}))(t)
	if _, err := s.StartSet(ctx, sc.StudentActor(0), store.NewSet{Assignment: direct, Table: sc.Table.ID}); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("an assignment for another student: %v", err)
	}
	if err := s.EndAssignment(ctx, sc.Coach, direct); err != nil {
		t.Fatal(err)
	}
	if _, err := s.StartSet(ctx, sc.StudentActor(1), store.NewSet{Assignment: direct, Table: sc.Table.ID}); !errors.Is(err, store.ErrConflict) {
		t.Errorf("an assignment that has ended: %v", err)
	}
	set := must(s.StartSet(ctx, sc.StudentActor(0), start))(t)
	start.ID = set.ID
	if _, err := s.StartSet(ctx, sc.StudentActor(1), start); !errors.Is(err, store.ErrConflict) {
		t.Errorf("another's set id: %v", err)
	}
	if err := s.ArchiveTable(ctx, sc.Coach, sc.Table.ID); err != nil {
		t.Fatal(err)
	}
	if _, err := s.StartSet(ctx, sc.StudentActor(1), store.NewSet{Assignment: sc.Assignment, Table: sc.Table.ID}); !errors.Is(err, store.ErrConflict) {
		t.Errorf("a table that was put away: %v", err)
	}
}

func TestStartSet_NamesByTheClubsClock(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx := t.Context()
	if err := sc.Store.ChangeClub(ctx, sc.Coach, store.Club{Name: "Quay", Zone: "Asia/Tokyo"}); err != nil {
		t.Fatal(err)
	}
	start := store.NewSet{Assignment: sc.Assignment, Table: sc.Table.ID, At: time.Date(2026, 3, 2, 18, 5, 0, 0, time.UTC)}
	for _, want := range []string{"2026-03-03 03:05", "2026-03-03 03:05 (2)"} { // Japan is nine hours ahead
		if set := must(sc.Store.StartSet(ctx, sc.StudentActor(0), start))(t); set.Name != want {
			t.Errorf("the set is named %q, not %q", set.Name, want)
		}
	}
}

func TestSet_TheRightWayRound(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	d := storetest.StandardDrill()
	d.Window.Left, d.Window.Right = -20, -5
	windowed := must(sc.Store.SaveDrill(t.Context(), sc.Coach, store.DrillID{}, d))(t)
	sc.Assignment = must(sc.Store.AssignDrill(t.Context(), sc.Coach, store.Assignment{Drill: windowed.ID, Class: sc.Class}))(t)
	set := sc.StartSet(t, sc.StudentActor(2))
	if set.Setup != d.Setup.Mirror() || set.Window != d.Window.Mirror() {
		t.Errorf("from the right: %+v, window %+v", set.Setup, set.Window)
	}
}

// A student may begin so many sets in a day, and others as many as before; what
// was begun is begun when it is sent again.
func TestStartSet_HasAnEndEachDay(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	start := store.NewSet{ID: store.NewID[store.SetID](), Assignment: sc.Assignment, Table: sc.Table.ID}
	must(sc.Store.StartSet(t.Context(), sc.StudentActor(0), start))(t)
	for range store.MaxSetsADay - 1 {
		sc.StartSet(t, sc.StudentActor(0))
	}
	over := store.NewSet{Assignment: sc.Assignment, Table: sc.Table.ID}
	if _, err := sc.Store.StartSet(t.Context(), sc.StudentActor(0), over); !errors.Is(err, store.ErrFull) {
		t.Errorf("one set too many: %v", err)
	}
	must(sc.Store.StartSet(t.Context(), sc.StudentActor(0), start))(t)
	sc.StartSet(t, sc.StudentActor(1))
}
