package store_test

import (
	"context"
	"testing"
	"time"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// waitForEvent waits for an event of a kind, letting Missed pass.
func waitForEvent(t *testing.T, events <-chan store.Event, kind store.EventKind) store.Event {
	t.Helper()
	patience := time.After(10 * time.Second)
	for {
		select {
		case e, open := <-events:
			if !open {
				t.Fatalf("the channel closed before %q", kind)
			}
			if e.Kind == kind {
				return e
			}
		case <-patience:
			t.Fatalf("%q was not heard", kind)
		}
	}
}

// Two programs share one database: what is recorded and taken out through one is heard
// through the other, and only by the club it belongs to.
func TestListen_AcrossProgramsAndWithinTheClub(t *testing.T) {
	owner := storetest.NewDatabase(t)
	here, there := storetest.Open(t, owner), storetest.Open(t, owner)
	scene := storetest.AddScene(t, here)
	other, _ := storetest.NewClub(t, here)
	events, err := there.Subscribe(t.Context(), scene.Coach)
	if err != nil {
		t.Fatal(err)
	}
	elsewhere, err := there.Subscribe(t.Context(), other)
	if err != nil {
		t.Fatal(err)
	}
	waitForEvent(t, events, store.EventsMissed)
	// The first Missed is the listener's own; the second says that the line is up.
	waitForEvent(t, events, store.EventsMissed)
	student := store.Actor{Club: scene.Coach.Club, Person: scene.Students[0].ID, Role: store.Student}
	set := scene.RecordBreaks(t, student, 1)
	if e := waitForEvent(t, events, store.BreakSaved); e.Set != set || e.Student != student.Person {
		t.Errorf("heard %+v", e)
	}
	recorded := must(here.GetSet(t.Context(), student, set))(t)
	if err := here.DeleteBreak(t.Context(), student, set, recorded.Breaks[0].ID, 2, "the rack fell apart"); err != nil {
		t.Fatal(err)
	}
	if e := waitForEvent(t, events, store.BreakSaved); e.Set != set {
		t.Errorf("of a break that was taken out is heard %+v", e)
	}
	if now := must(here.GetSet(t.Context(), student, set))(t); now.Revision != recorded.Revision+1 {
		t.Errorf("a set of revision %d is at %d when a break was taken out", recorded.Revision, now.Revision)
	}
	for {
		select {
		case e := <-elsewhere:
			if e.Kind != store.EventsMissed {
				t.Fatalf("another club heard %+v", e)
			}
			continue
		default:
		}
		break
	}
}

func TestListen_EndsWithItsContext(t *testing.T) {
	scene := storetest.NewScene(t)
	ctx, cancel := context.WithCancel(t.Context())
	events, err := scene.Store.Subscribe(ctx, scene.Coach)
	if err != nil {
		t.Fatal(err)
	}
	cancel()
	patience := time.After(10 * time.Second)
	for open := true; open; {
		select {
		case _, open = <-events:
		case <-patience:
			t.Fatal("the channel stays open")
		}
	}
	student := store.Actor{Club: scene.Coach.Club, Person: scene.Students[0].ID, Role: store.Student}
	if _, err := scene.Store.Subscribe(t.Context(), student); err == nil {
		t.Error("a student may listen to the whole club")
	}
}

// A listener who does not listen loses events, and is told so.
func TestListen_TheSlowHearThatTheyMissedSome(t *testing.T) {
	scene := storetest.NewScene(t)
	events, err := scene.Store.Subscribe(t.Context(), scene.Coach)
	if err != nil {
		t.Fatal(err)
	}
	waitForEvent(t, events, store.EventsMissed)
	waitForEvent(t, events, store.EventsMissed)
	student := store.Actor{Club: scene.Coach.Club, Person: scene.Students[0].ID, Role: store.Student}
	for range 4 {
		scene.RecordBreaks(t, student, 10)
	}
	waitForEvent(t, events, store.EventsMissed)
}

func TestListLive_TheLatestSetOfEachStudent(t *testing.T) {
	scene := storetest.NewScene(t)
	student := store.Actor{Club: scene.Coach.Club, Person: scene.Students[0].ID, Role: store.Student}
	scene.RecordBreaks(t, student, 2)
	latest := scene.RecordBreaks(t, student, 3)
	own := must(scene.Store.StartSet(t.Context(), scene.StudentActor(1), store.NewSet{
		Table: scene.Table.ID, Training: "Closer in", Setup: scene.Drill.Setup, Breaks: 5,
	}))(t)
	rows, err := scene.Store.ListLiveStudents(t.Context(), scene.Coach, scene.Class, time.Now().Add(-time.Hour))
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 3 {
		t.Fatalf("%d students", len(rows))
	}
	for _, r := range rows {
		switch {
		case r.Student.ID == scene.Students[1].ID:
			if r.Set == nil || r.Set.ID != own.ID || r.Set.Title() != "Closer in" {
				t.Errorf("the training is %+v", r.Set)
			}
		case r.Student.ID != student.Person:
			if r.Set != nil {
				t.Errorf("%s has a set", r.Student.Name)
			}
		case r.Set == nil || r.Set.ID != latest || len(r.Set.Breaks) != 3 || r.Set.Title() != scene.Drill.Name:
			t.Errorf("the set is %+v", r.Set)
		}
	}
	later, err := scene.Store.ListLiveStudents(t.Context(), scene.Coach, scene.Class, time.Now().Add(time.Hour))
	if err != nil || later[0].Set != nil || later[1].Set != nil {
		t.Errorf("an evening that has not begun shows sets (%v)", err)
	}
	if _, err := scene.Store.ListLiveStudents(t.Context(), student, scene.Class, time.Now()); err == nil {
		t.Error("a student may look at the whole evening")
	}
}
