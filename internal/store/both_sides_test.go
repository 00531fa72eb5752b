package store_test

import (
	"errors"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

// bothSides assigns the scene's drill from both sides instead of the student's
// own, and gives the tasks of a student: that from the left first.
func bothSides(t *testing.T, sc storetest.Scene, student store.Actor) [2]store.Task {
	t.Helper()
	ctx := t.Context()
	if err := sc.Store.EndAssignment(ctx, sc.Coach, sc.Assignment); err != nil {
		t.Fatal(err)
	}
	wanted := store.Assignment{ID: store.NewID[store.AssignmentID](), Drill: sc.Drill.ID, Class: sc.Class}
	var left, right store.AssignmentID
	for range 2 { // a second click
		var err error
		if left, right, err = sc.Store.AssignBothSides(ctx, sc.Coach, wanted); err != nil || left == right {
			t.Fatalf("%v and %v (%v)", left, right, err)
		}
	}
	tasks := must(sc.Store.GetToday(ctx, student))(t).Tasks
	if len(tasks) != 2 {
		t.Fatalf("the student has %d tasks, want one a side", len(tasks))
	}
	if tasks[0].Assignment == right {
		tasks[0], tasks[1] = tasks[1], tasks[0]
	}
	if tasks[0].Assignment != left || tasks[1].Assignment != right {
		t.Fatalf("the student has %v and %v, want %v and %v", tasks[0].Assignment, tasks[1].Assignment, left, right)
	}
	return [2]store.Task(tasks)
}

func TestAssignBothSides_MakesOneEach(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, wen := t.Context(), sc.Store, sc.StudentActor(2) // who breaks from the right
	tasks := bothSides(t, sc, wen)
	for i, side := range []table.Side{table.Left, table.Right} {
		if n := tasks[i].InstructionOn(sc.Table.Kind); n.Setup.Side != side || tasks[i].Name() != "Find the wing ball, from the "+string(side) {
			t.Errorf("%s is broken from the %s, want %s", tasks[i].Name(), n.Setup.Side, side)
		}
		set := must(s.StartSet(ctx, wen, store.NewSet{Assignment: tasks[i].Assignment, Table: sc.Table.ID}))(t)
		if set.Setup.Side != side {
			t.Errorf("the set of %s is broken from the %s", tasks[i].Name(), set.Setup.Side)
		}
		sheets := must(s.GetSheets(ctx, sc.Coach, tasks[i].Assignment))(t)
		for _, sheet := range sheets.Students {
			if sheet.Side != side || sheet.Task.InstructionOn(sc.Table.Kind).Setup.Side != side {
				t.Errorf("%s's sheet is from the %s, want %s", sheet.Name, sheet.Side, side)
			}
		}
	}
	listed := must(s.ListAssignments(ctx, sc.Coach, store.ActiveOnly))(t)
	if len(listed) != 2 || listed[0].DrillName == listed[1].DrillName {
		t.Errorf("the coach reads %+v", listed)
	}
}

// Either both are made or none: here the class of another club is refused.
func TestAssignBothSides_BothOrNone(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	other := storetest.AddScene(t, sc.Store)
	wanted := store.Assignment{ID: store.NewID[store.AssignmentID](), Drill: sc.Drill.ID, Class: other.Class}
	if _, _, err := sc.Store.AssignBothSides(t.Context(), sc.Coach, wanted); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("assigned to another club's class: %v", err)
	}
	// The same form for one side was sent before.
	wanted.Class = sc.Class
	must(sc.Store.AssignDrill(t.Context(), sc.Coach, wanted))(t)
	if _, _, err := sc.Store.AssignBothSides(t.Context(), sc.Coach, wanted); !errors.Is(err, store.ErrConflict) {
		t.Errorf("the id of another assignment was taken: %v", err)
	}
	if listed := must(sc.Store.ListAssignments(t.Context(), sc.Coach, store.ActiveOnly))(t); len(listed) != 2 {
		t.Errorf("%d assignments are open, want the scene's and one more", len(listed))
	}
}

// A change that was decided for one side says nothing of the other.
func TestAssignBothSides_ChangesStayOnTheirSide(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	tasks := bothSides(t, sc, odile)
	own := tasks[1].InstructionOn(sc.Table.Kind).Setup
	set := must(s.StartSet(ctx, odile, store.NewSet{Assignment: tasks[0].Assignment, Table: sc.Table.ID}))(t)
	for n := range 10 {
		if _, err := s.SaveBreak(ctx, odile, set.ID, storetest.NewBreak(n+1)); err != nil {
			t.Fatal(err)
		}
	}
	sc.CloseSet(t, odile, set.ID, -14)
	pending := must(s.ListPendingPrescriptions(ctx, sc.Coach))(t)
	if err := s.DecidePrescription(ctx, sc.Coach, pending[0].ID, store.Decision{Answer: store.Approved}); err != nil {
		t.Fatal(err)
	}
	for _, task := range must(s.GetToday(ctx, odile))(t).Tasks {
		switch now := task.InstructionOn(sc.Table.Kind).Setup; task.Side {
		case table.Left:
			if now.Cue.X != -14 {
				t.Errorf("from the left the cue ball stands at %v, want -14", now.Cue.X)
			}
		case table.Right:
			if now != own {
				t.Errorf("from the right the setup is %+v, want it as it was", now)
			}
		}
	}
	// A student who changes sides takes what was decided along.
	must(s.AssignDrill(ctx, sc.Coach, store.Assignment{Drill: sc.Drill.ID, Class: sc.Class}))(t)
	sc.ChangeStudents(t, store.RosterChange{Kind: store.SetSides, Side: table.Right}, odile.Person)
	for _, task := range must(s.GetToday(ctx, odile))(t).Tasks {
		if now := task.InstructionOn(sc.Table.Kind).Setup; task.Side == "" && now.Cue.X != 14 {
			t.Errorf("after a change of sides the cue ball stands at %v, want 14", now.Cue.X)
		}
	}
}

// Of a pair that is ended together neither is left alone on the students' pages.
func TestEndAssignment_BothOrNeither(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, wen := t.Context(), sc.StudentActor(2)
	tasks := bothSides(t, sc, wen)
	if err := sc.Store.EndAssignment(ctx, sc.Coach, tasks[0].Assignment, store.NewID[store.AssignmentID]()); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("with one that is not there: %v", err)
	}
	if left := must(sc.Store.GetToday(ctx, wen))(t).Tasks; len(left) != 2 {
		t.Errorf("half of it was ended: %d tasks are left", len(left))
	}
	if err := sc.Store.EndAssignment(ctx, sc.Coach, tasks[0].Assignment, tasks[1].Assignment); err != nil {
		t.Error(err)
	}
	if left := must(sc.Store.GetToday(ctx, wen))(t).Tasks; len(left) != 0 {
		t.Errorf("both ended: %d tasks are left", len(left))
	}
}
