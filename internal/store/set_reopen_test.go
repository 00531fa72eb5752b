package store_test

import (
	"errors"
	"math"
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

// A set closed by mistake goes on as if it had not been closed: what it had
// ended is as before, whether it asked for a change itself or for none, and closed again
// it is judged anew.
func TestReopenSet_AsIfItHadNotBeenClosed(t *testing.T) {
	t.Parallel()
	for _, asked := range []table.Inches{-18, -14} { // it was broken from 18 inches out
		sc := storetest.NewScene(t)
		ctx, odile := t.Context(), sc.StudentActor(0)
		first := sc.RecordBreaks(t, odile, 10)
		sc.CloseSet(t, odile, first, -16)
		set := sc.RecordBreaks(t, odile, 9)
		sc.CloseSet(t, odile, set, asked)
		if p := must(sc.Store.GetSet(ctx, odile, first))(t).Prescription; p.Superseded.IsZero() {
			t.Fatal("the first proposal still waits after a second")
		}
		for range 2 {
			if err := sc.Store.ReopenSet(ctx, odile, set); err != nil {
				t.Fatal(err)
			}
		}
		got := must(sc.Store.GetSet(ctx, odile, set))(t)
		if !got.Closed.IsZero() || got.Advice != nil || got.Prescription != nil {
			t.Fatalf("opened again: closed %v, advice %v, prescription %v", got.Closed, got.Advice, got.Prescription)
		}
		if p := must(sc.Store.GetSet(ctx, odile, first))(t).Prescription; !p.Superseded.IsZero() {
			t.Errorf("after %v was asked for, the first proposal does not wait again", asked)
		}
		must(sc.Store.SaveBreak(ctx, odile, set, storetest.NewBreak(10)))(t)
		sc.CloseSet(t, odile, set, -20)
		got = must(sc.Store.GetSet(ctx, odile, set))(t)
		if len(got.Breaks) != 10 || got.Prescription == nil || got.Prescription.After.Cue.X != -20 {
			t.Errorf("closed again: %d breaks, %+v", len(got.Breaks), got.Prescription)
		}
	}
}

func TestReopenSet_NotAfterADecisionNorLater(t *testing.T) {
	t.Parallel()
	owner := storetest.NewDatabase(t)
	sc := storetest.AddScene(t, storetest.Open(t, owner))
	ctx, odile := t.Context(), sc.StudentActor(0)
	decided := sc.RecordBreaks(t, odile, 10)
	sc.CloseSet(t, odile, decided, -16)
	proposal := must(sc.Store.GetSet(ctx, odile, decided))(t).Prescription.ID
	if err := sc.Store.DecidePrescription(ctx, sc.Coach, proposal, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	if err := sc.Store.ReopenSet(ctx, odile, decided); !errors.Is(err, store.ErrConflict) {
		t.Errorf("after the coach decided: %v", err)
	}
	late := sc.RecordBreaks(t, odile, 3)
	sc.CloseSet(t, odile, late, -18)
	ownerConn := connect(t, owner)
	if _, err := ownerConn.Exec(ctx, "update break_set set closed_at = now() - $2::interval where id = $1", late.UUID, "10 minutes 1 second"); err != nil {
		t.Fatal(err)
	}
	if err := sc.Store.ReopenSet(ctx, odile, late); !errors.Is(err, store.ErrConflict) {
		t.Errorf("after ten minutes: %v", err)
	}
	if err := sc.Store.ReopenSet(ctx, sc.StudentActor(1), late); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("another student: %v", err)
	}
}

func TestDiscardSet_OnlyWhatHoldsNothing(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile, s := t.Context(), sc.StudentActor(0), sc.Store
	remove := func(set store.SetID, why string) {
		b := must(s.GetSet(ctx, odile, set))(t).Breaks[0]
		if err := s.DeleteBreak(ctx, odile, set, b.ID, b.Revision+1, why); err != nil {
			t.Fatal(err)
		}
	}
	undone, reasoned, full, asked := sc.RecordBreaks(t, odile, 1), sc.RecordBreaks(t, odile, 1), sc.RecordBreaks(t, odile, 1), sc.StartSet(t, odile).ID
	remove(undone, "undone at once")
	remove(reasoned, "the rack was loose")
	if err := s.PostMessage(ctx, odile, store.MessageID{}, asked, "Which drill?"); err != nil {
		t.Fatal(err)
	}
	closed := sc.StartSet(t, odile).ID
	sc.CloseSet(t, odile, closed, -16)
	for name, c := range map[string]struct {
		set  store.SetID
		want error
	}{
		"a break that was undone": {undone, nil}, "a reason": {reasoned, store.ErrConflict}, "a break": {full, store.ErrConflict},
		"a message": {asked, store.ErrConflict}, "closed": {closed, store.ErrClosed},
	} {
		if err := s.DiscardSet(ctx, sc.StudentActor(1), c.set); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("%s, another student: %v", name, err)
		}
		if err := s.DiscardSet(ctx, odile, c.set); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", name, err, c.want)
		}
	}
	if _, err := s.GetSet(ctx, odile, undone); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("the empty set: %v", err)
	}
}

// On another table places are carried in proportion, and a closed set is judged
// anew; a student moves only what is open.
func TestMoveSet_CarriesAndJudgesAnew(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile, s := t.Context(), sc.StudentActor(0), sc.Store
	small := must(s.SaveTable(ctx, sc.Coach, store.Table{Name: "South", Kind: table.SevenFoot()}))(t)
	set := sc.RecordBreaks(t, odile, 5)
	struck := must(s.GetSet(ctx, odile, set))(t).Breaks[4]
	if err := s.DeleteBreak(ctx, odile, set, struck.ID, 2, "the rack fell apart"); err != nil {
		t.Fatal(err)
	}
	before := must(s.GetSet(ctx, odile, set))(t)
	if err := s.MoveSet(ctx, odile, set, store.SetMove{Table: small.ID}, storetest.ProposeMove(-12)); err != nil {
		t.Fatal(err)
	}
	moved := must(s.GetSet(ctx, odile, set))(t)
	scale := table.SevenFoot().Length() / table.NineFoot().Length()
	if moved.Table.ID != small.ID || moved.Setup != before.Setup.CarryToKind(table.NineFoot(), table.SevenFoot()) {
		t.Fatalf("moved to %s with %+v", moved.Table.Name, moved.Setup)
	}
	for i, b := range moved.Breaks {
		was := before.Breaks[i]
		if want := (table.Place{X: was.Cue.Place.X * scale, Y: was.Cue.Place.Y * scale}); was.Cue.How == drill.Stopped && b.Cue.Place.Distance(want) > 0.1 {
			t.Errorf("break %d: %v on the small table, want %v", b.Number, b.Cue.Place, want)
		}
		// As a phone keeps it: to a tenth of an inch.
		for _, v := range []table.Inches{b.Cue.Place.X, b.Cue.Place.Y} {
			if tenths := float64(v) * 10; b.Cue.How == drill.Stopped && v != table.Inches(math.Round(tenths)/10) {
				t.Errorf("break %d: carried to %v inches", b.Number, v)
			}
		}
		if b.Revision <= was.Revision {
			t.Errorf("break %d is still revision %d: a phone would not fetch it", b.Number, b.Revision)
		}
	}
	if err := s.PutBreakBack(ctx, sc.Coach, set, struck.ID, nil); err != nil {
		t.Fatal(err)
	}
	if all := must(s.GetSet(ctx, odile, set))(t).Breaks; all[4].Cue.Place != all[2].Cue.Place || all[4].Rest[0] != all[2].Rest[0] {
		t.Errorf("taken out before the move and put back after it, a break lies at %v, as recorded the same at %v", all[4].Cue.Place, all[2].Cue.Place)
	}
	sc.CloseSet(t, odile, set, -12)
	if err := s.MoveSet(ctx, odile, set, store.SetMove{Table: sc.Table.ID}, storetest.ProposeMove(-14)); !errors.Is(err, store.ErrClosed) {
		t.Errorf("a student moves a closed set: %v", err)
	}
	closed := must(s.GetSet(ctx, odile, set))(t).Closed
	if err := s.MoveSet(ctx, sc.Coach, set, store.SetMove{Table: sc.Table.ID}, storetest.ProposeMove(-14)); err != nil {
		t.Fatal(err)
	}
	again := must(s.GetSet(ctx, odile, set))(t)
	if !again.Closed.Equal(closed) || again.Prescription == nil || again.Prescription.After.Cue.X != -14 || again.Table.ID != sc.Table.ID {
		t.Errorf("moved by the coach: closed %v (was %v), %+v", again.Closed, closed, again.Prescription)
	}
}

// The drill that was really broken: its setup, its window and what is counted in it, its
// name.
func TestMoveSet_ToAnotherDrill(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile, s := t.Context(), sc.StudentActor(0), sc.Store
	other := storetest.StandardDrill()
	other.Name, other.Setup.Cue.X, other.Window = "Closer in", -6, table.Window{Left: 5, Right: 15, Head: 20, Foot: 60}
	d := must(s.SaveDrill(ctx, sc.Coach, store.DrillID{}, other))(t)
	assigned := must(s.AssignDrill(ctx, sc.Coach, store.Assignment{Drill: d.ID, Class: sc.Class}))(t)
	set := sc.RecordBreaks(t, odile, 2)
	if err := s.MoveSet(ctx, odile, set, store.SetMove{Table: sc.Table.ID, Assignment: assigned}, storetest.ProposeMove(-12)); err != nil {
		t.Fatal(err)
	}
	got := must(s.GetSet(ctx, odile, set))(t)
	if got.Assignment != assigned || got.Drill.Name != "Closer in" || got.Setup.Cue.X != -6 || len(got.Breaks) != 2 {
		t.Errorf("%+v", got)
	}
	closed := sc.RecordBreaks(t, odile, 2) // of the drill as it was
	for _, id := range []store.SetID{set, closed} {
		sc.CloseSet(t, odile, id, -6)
	}
	for _, stint := range must(s.GetStudentProgress(ctx, odile, odile.Person, store.ProgressFilter{}))(t).Stints {
		if want := map[store.SetID]int{set: 0, closed: 2}[stint.LastSet]; stint.InWindow != want {
			t.Errorf("in the window of a stint of %d breaks %d are counted, want %d", stint.Breaks, stint.InWindow, want)
		}
	}
}

// A set that is said to be where it is stays as it is, decided on or not.
func TestMoveSet_ToWhereItIs(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile, s := t.Context(), sc.StudentActor(0), sc.Store
	p := proposed(t, sc, odile, -16)
	if err := s.DecidePrescription(ctx, sc.Coach, p.ID, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	before := must(s.GetSet(ctx, sc.Coach, p.Set))(t)
	for _, to := range []store.SetMove{{Table: sc.Table.ID}, {Table: sc.Table.ID, Assignment: sc.Assignment}} {
		if err := s.MoveSet(ctx, sc.Coach, p.Set, to, storetest.ProposeMove(-12)); err != nil {
			t.Errorf("%+v: %v", to, err)
		}
	}
	if now := must(s.GetSet(ctx, sc.Coach, p.Set))(t); now.Revision != before.Revision || now.Prescription.After != before.Prescription.After {
		t.Errorf("revision %d, was %d; proposed %+v", now.Revision, before.Revision, now.Prescription.After)
	}
}

// A phone out of reach begins sets of what has ended since: what counts is when
// they were begun.
func TestStartSet_BeforeTheEnd(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile, s := t.Context(), sc.StudentActor(0), sc.Store
	begun := time.Now().Add(-time.Minute)
	if err := s.EndAssignment(ctx, sc.Coach, sc.Assignment); err != nil {
		t.Fatal(err)
	}
	if err := s.ArchiveTable(ctx, sc.Coach, sc.Table.ID); err != nil {
		t.Fatal(err)
	}
	start := store.NewSet{Assignment: sc.Assignment, Table: sc.Table.ID, At: begun}
	set := must(s.StartSet(ctx, odile, start))(t)
	must(s.SaveBreak(ctx, odile, set.ID, storetest.NewBreak(1)))(t)
	start.At = time.Now().Add(time.Minute)
	if _, err := s.StartSet(ctx, odile, start); !errors.Is(err, store.ErrConflict) {
		t.Errorf("begun after the end: %v", err)
	}
}

// Sent again, a start is the set that it began; on another table or for another drill its
// id is taken.
func TestStartSet_OneOfAnID(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile, s := t.Context(), sc.StudentActor(0), sc.Store
	south := must(s.SaveTable(ctx, sc.Coach, store.Table{Name: "South", Kind: table.NineFoot()}))(t)
	second := must(s.AssignDrill(ctx, sc.Coach, store.Assignment{Drill: sc.Drill.ID, Students: []store.PersonID{odile.Person}}))(t)
	start := store.NewSet{ID: store.NewID[store.SetID](), Assignment: sc.Assignment, Table: sc.Table.ID}
	set := must(s.StartSet(ctx, odile, start))(t)
	must(s.SaveBreak(ctx, odile, set.ID, storetest.NewBreak(1)))(t)
	if again := must(s.StartSet(ctx, odile, start))(t); len(again.Breaks) != 1 || again.Title() != sc.Drill.Name {
		t.Errorf("started again it is %q with %d breaks", again.Title(), len(again.Breaks))
	}
	for name, c := range map[string]store.NewSet{
		"another table": {ID: start.ID, Assignment: sc.Assignment, Table: south.ID}, "another drill": {ID: start.ID, Assignment: second, Table: sc.Table.ID},
	} {
		if _, err := s.StartSet(ctx, odile, c); !errors.Is(err, store.ErrConflict) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestStartSet_TrainingAlone(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile, s := t.Context(), sc.StudentActor(0), sc.Store
	window := table.Window{Left: -9, Right: 3, Head: 22, Foot: 50}
	start := store.NewSet{Table: sc.Table.ID, Training: "Closer in", Setup: sc.Drill.Setup, Window: window, Breaks: 5}
	set := must(s.StartSet(ctx, odile, start))(t)
	if set.Training != "Closer in" || set.Window != window || set.Planned != 5 || set.Title() != "Closer in" || !store.IsZero(set.Assignment) {
		t.Errorf("%+v", set)
	}
	for asked, planned := range map[int]int{0: drill.UsualBreaks, 1: 1} {
		start.Breaks = asked
		if set := must(s.StartSet(ctx, odile, start))(t); set.Planned != planned {
			t.Errorf("of %d breaks that were asked for %d are planned", asked, set.Planned)
		}
	}
	for name, spoil := range map[string]func(*store.NewSet){
		"training": func(n *store.NewSet) { n.Training = " " }, "setup": func(n *store.NewSet) { n.Setup = drill.Setup{} },
		"breaks": func(n *store.NewSet) { n.Breaks = 500 }, "window": func(n *store.NewSet) { n.Window.Left = 80 },
	} {
		bad := start
		spoil(&bad)
		_, err := s.StartSet(ctx, odile, bad)
		var p drill.Problems
		if !errors.As(err, &p) || p.MessageFor(name) == "" {
			t.Errorf("no %s: %v", name, err)
		}
	}
}

// A change goes on trial with the set that was really broken under it, and no more with one
// that is moved to another drill; once a later set has begun, what the first began stays.
func TestMoveSet_TakesTheChangeInTrialAlong(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, odile, s := t.Context(), sc.StudentActor(0), sc.Store
	other := storetest.StandardDrill()
	other.Name, other.Setup.Cue.X = "Closer in", -6
	d := must(s.SaveDrill(ctx, sc.Coach, store.DrillID{}, other))(t)
	assigned := must(s.AssignDrill(ctx, sc.Coach, store.Assignment{Drill: d.ID, Class: sc.Class}))(t)
	p := proposed(t, sc, odile, -16)
	if err := s.DecidePrescription(ctx, sc.Coach, p.ID, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	set := sc.RecordBreaks(t, odile, 2)
	move := func(to store.AssignmentID) {
		t.Helper()
		if err := s.MoveSet(ctx, odile, set, store.SetMove{Table: sc.Table.ID, Assignment: to}, storetest.ProposeMove(-16)); err != nil {
			t.Fatal(err)
		}
	}
	if got := state(t, sc, p); got != store.InTrial {
		t.Fatalf("begun under it: %s", got)
	}
	if move(assigned); state(t, sc, p) == store.InTrial {
		t.Errorf("moved to another drill: %s", state(t, sc, p))
	}
	if move(sc.Assignment); state(t, sc, p) != store.InTrial {
		t.Errorf("moved back: %s", state(t, sc, p))
	}
	sc.RecordBreaks(t, odile, 1)
	if move(assigned); state(t, sc, p) != store.InTrial {
		t.Errorf("moved after a later set began: %s", state(t, sc, p))
	}
}
