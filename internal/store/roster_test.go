package store_test

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/account"
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

// find returns a student of the roster.
func find(t *testing.T, sc storetest.Scene, i int) store.RosterStudent {
	t.Helper()
	all := must(sc.Store.ListRoster(t.Context(), sc.Coach))(t)
	at := slices.IndexFunc(all, func(s store.RosterStudent) bool { return s.ID == sc.Students[i].ID })
	if at < 0 {
		t.Fatalf("%s is not on the roster", sc.Students[i].Name)
	}
	return all[at]
}

// Every kind of change does what it says to whom it was asked for and to nobody
// else, says how many it changed, and is taken back.
func TestChangeStudents_AndUndo(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	other := must(sc.Store.SaveClass(t.Context(), sc.Coach, store.Class{Name: "Friday"}))(t)
	for name, c := range map[string]struct {
		before, change store.RosterChange
		is             func(store.RosterStudent) bool
	}{
		"side":      {store.RosterChange{Kind: store.SetSides, Side: table.Left}, store.RosterChange{Kind: store.SetSides, Side: table.Right}, func(s store.RosterStudent) bool { return s.Side == table.Right }},
		"no side":   {store.RosterChange{Kind: store.SetSides, Side: table.Left}, store.RosterChange{Kind: store.SetSides}, func(s store.RosterStudent) bool { return s.Side == "" }},
		"class in":  {store.RosterChange{Kind: store.SetSides}, store.RosterChange{Kind: store.AddToClass, Class: other}, func(s store.RosterStudent) bool { return s.IsIn(other) }},
		"class out": {store.RosterChange{Kind: store.SetSides}, store.RosterChange{Kind: store.RemoveFromClass, Class: sc.Class}, func(s store.RosterStudent) bool { return !s.IsIn(sc.Class) }},
		"archive":   {store.RosterChange{Kind: store.RestoreMany}, store.RosterChange{Kind: store.ArchiveMany}, func(s store.RosterStudent) bool { return s.Archived }},
		"restore":   {store.RosterChange{Kind: store.ArchiveMany}, store.RosterChange{Kind: store.RestoreMany}, func(s store.RosterStudent) bool { return !s.Archived }},
	} {
		both := []store.PersonID{sc.Students[0].ID, sc.Students[1].ID}
		all := append(slices.Clone(both), sc.Students[2].ID)
		must(sc.Store.ChangeStudents(t.Context(), sc.Coach, c.before, all))(t)
		c.change.ID = store.NewID[store.RosterChangeID]()
		for range 2 { // a double click
			made := must(sc.Store.ChangeStudents(t.Context(), sc.Coach, c.change, both))(t)
			if made.Students != 2 || made.Undone {
				t.Errorf("%s: %+v, want two students changed", name, made)
			}
		}
		if !c.is(find(t, sc, 0)) || !c.is(find(t, sc, 1)) || c.is(find(t, sc, 2)) {
			t.Errorf("%s: %+v, %+v, %+v", name, find(t, sc, 0), find(t, sc, 1), find(t, sc, 2))
		}
		for range 2 {
			if undone := must(sc.Store.UndoRosterChange(t.Context(), sc.Coach, c.change.ID))(t); !undone.Undone {
				t.Errorf("%s: not undone", name)
			}
		}
		must(sc.Store.ChangeStudents(t.Context(), sc.Coach, c.change, both))(t) // a click that comes late
		if c.is(find(t, sc, 0)) || c.is(find(t, sc, 1)) {
			t.Errorf("%s is not taken back: %+v", name, find(t, sc, 0))
		}
		must(sc.Store.ChangeStudents(t.Context(), sc.Coach, store.RosterChange{Kind: store.RestoreMany}, all))(t)
	}
}

// Students who are put away together are signed out, and it is theirs to sign in again
// when that is taken back.
func TestChangeStudents_ArchivedAreSignedOut(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, now := t.Context(), sc.Store, time.Now()
	tokens := make([][]byte, 2)
	for i := range tokens {
		_, tokens[i] = account.NewToken()
		if err := s.StartSession(ctx, sc.StudentActor(i), store.NewSession{TokenHash: tokens[i], At: now}); err != nil {
			t.Fatal(err)
		}
	}
	made := must(s.ChangeStudents(ctx, sc.Coach, store.RosterChange{Kind: store.ArchiveMany}, []store.PersonID{sc.Students[0].ID}))(t)
	must(s.UndoRosterChange(ctx, sc.Coach, made.ID))(t)
	if _, err := s.FindSession(ctx, tokens[0], now); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("put away and brought back, still signed in: %v", err)
	}
	must(s.FindSession(ctx, tokens[1], now))(t)
}

// An undo brings back what each one had, and leaves what was set since.
func TestUndoRosterChange_KeepsWhatCameSince(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	for i, side := range []table.Side{table.Left, "", table.Right} {
		sc.ChangeStudents(t, store.RosterChange{Kind: store.SetSides, Side: side}, sc.Students[i].ID)
	}
	ids := []store.PersonID{sc.Students[0].ID, sc.Students[1].ID, sc.Students[2].ID}
	made := must(s.ChangeStudents(ctx, sc.Coach, store.RosterChange{Kind: store.SetSides, Side: table.Right}, ids))(t)
	if made.Students != 2 {
		t.Errorf("%d changed; the third had that side already", made.Students)
	}
	sc.ChangeStudents(t, store.RosterChange{Kind: store.SetSides, Side: table.Left}, sc.Students[1].ID)
	must(s.UndoRosterChange(ctx, sc.Coach, made.ID))(t)
	if a, b, c := find(t, sc, 0).Side, find(t, sc, 1).Side, find(t, sc, 2).Side; a != table.Left || b != table.Left || c != table.Right {
		t.Errorf("sides %q, %q and %q", a, b, c)
	}
}

func TestChangeStudents_StaysInTheClub(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	other := storetest.AddScene(t, sc.Store)
	ctx, s := t.Context(), sc.Store
	made := must(s.ChangeStudents(ctx, sc.Coach, store.RosterChange{Kind: store.ArchiveMany}, []store.PersonID{other.Students[0].ID, sc.Coach.Person}))(t)
	if made.Students != 0 || find(t, other, 0).Archived {
		t.Error("a student of another club, or a coach, was archived")
	}
	if _, err := s.ChangeStudents(ctx, sc.Coach, store.RosterChange{Kind: store.AddToClass, Class: other.Class}, []store.PersonID{sc.Students[0].ID}); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("into another club's class: %v", err)
	}
	if _, err := s.UndoRosterChange(ctx, other.Coach, made.ID); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("undone by another club: %v", err)
	}
	if _, err := s.ChangeStudents(ctx, sc.StudentActor(0), store.RosterChange{Kind: store.SetSides}, nil); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("by a student: %v", err)
	}
	if _, err := s.ListRoster(ctx, sc.StudentActor(0)); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student lists all: %v", err)
	}
}

// The roster says who broke when; an archived student is signed out.
func TestListRoster(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	odile := sc.StudentActor(0)
	if last := find(t, sc, 0).LastSet; !last.IsZero() {
		t.Errorf("a last set at %v before there was one", last)
	}
	sc.CloseSet(t, odile, sc.RecordBreaks(t, odile, 10), -16)
	if last := find(t, sc, 0).LastSet; last.IsZero() || last.After(time.Now().Add(time.Hour)) {
		t.Errorf("the last set at %v", last)
	}
	if got := find(t, sc, 0).Classes; !slices.Equal(got, []store.ClassID{sc.Class}) {
		t.Errorf("classes %v", got)
	}
}

// A note is one coach's alone: neither its student, nor another coach of the
// club, nor another club learns of it, past the pages too.
func TestStudentNote_IsItsCoachsAlone(t *testing.T) {
	t.Parallel()
	w := buildWalls(t)
	ctx, s, odile := t.Context(), w.mine.Store, w.mine.Students[0].ID
	second := store.Actor{Club: w.mine.Coach.Club, Role: store.Coach}
	second.Person = must(s.AddCoach(ctx, w.mine.Coach, store.NewCoach{Name: "Ida", Login: "ida-of-the-notes", SecretHash: "$argon2id$x"}))(t)
	if err := s.SaveStudentNote(ctx, w.mine.Coach, odile, " Sore wrist:\r\nno power breaks. "); err != nil {
		t.Fatal(err)
	}
	if got := must(s.GetStudentNote(ctx, w.mine.Coach, odile))(t); got != "Sore wrist:\nno power breaks." {
		t.Errorf("kept as %q", got)
	}
	if got := must(s.GetStudentNote(ctx, second, odile))(t); got != "" {
		t.Errorf("another coach reads %q", got)
	}
	if _, err := s.GetStudentNote(ctx, w.mine.StudentActor(0), odile); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("the student: %v", err)
	}
	for _, v := range []store.Actor{second, w.mine.StudentActor(0), w.mine.StudentActor(1), w.other.Coach, nobody} {
		w.as(t, v, func(tx pgx.Tx) {
			if n := count(t, tx, "select count(*) from student_note where student_id = $1", odile.UUID); n != 0 {
				t.Errorf("%v reads %d notes", v, n)
			}
		})
	}
	var problems drill.Problems
	if err := s.SaveStudentNote(ctx, w.mine.Coach, odile, strings.Repeat("é", store.MaxNote+1)); !errors.As(err, &problems) {
		t.Errorf("too long: %v", err)
	}
	if err := s.SaveStudentNote(ctx, w.other.Coach, odile, "x"); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("another club's coach: %v", err)
	}
	if err := s.SaveStudentNote(ctx, w.mine.Coach, odile, " "); err != nil || must(s.GetStudentNote(ctx, w.mine.Coach, odile))(t) != "" {
		t.Errorf("an empty note stays (%v)", err)
	}
}
