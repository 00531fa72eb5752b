package store_test

import (
	"errors"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

func TestSaveDrill_AssignedOnesAreReplaced(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	before := must(s.GetDrill(ctx, sc.Coach, sc.Drill.ID))(t)
	if !before.Assigned || before.Lineage != before.ID {
		t.Errorf("the scene's drill: %+v", before)
	}
	edit := before.Drill
	edit.Setup.Tip = -0.2
	saved := must(s.SaveDrill(ctx, sc.Coach, before.ID, edit))(t)
	if saved.ID == before.ID || saved.Replaces != before.ID || saved.Lineage != before.ID || saved.Drill != edit || saved.Assigned {
		t.Errorf("the edit is %+v", saved)
	}
	old := must(s.GetDrill(ctx, sc.Coach, before.ID))(t)
	if !old.Archived || old.Drill != before.Drill {
		t.Errorf("the old one is now %+v", old)
	}
	if listed := must(s.ListDrills(ctx, sc.Coach, store.ActiveOnly))(t); len(listed) != 1 || listed[0].ID != saved.ID {
		t.Errorf("listed: %+v", listed)
	}
	other := edit
	other.Breaks = 15
	if _, err := s.SaveDrill(ctx, sc.Coach, before.ID, other); !errors.Is(err, store.ErrConflict) {
		t.Errorf("another edit of the replaced drill: %v", err)
	}
	if _, err := s.AssignDrill(ctx, sc.Coach, store.Assignment{Drill: before.ID, Class: sc.Class}); !errors.Is(err, store.ErrConflict) {
		t.Errorf("the replaced drill is assigned: %v", err)
	}
}

func TestSaveDrill_UnassignedOnesChange(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	copied := must(s.CopyDrill(ctx, sc.Coach, sc.Drill.ID, store.DrillID{}, "A second one"))(t)
	edit := copied.Drill
	edit.Watch = "The 1."
	edit.Targets.Shot, edit.Targets.RanOut = 0.6, 0.1
	edit.House = drill.HouseRules{ThreePoints: true, BreakBox: 20}
	saved := must(s.SaveDrill(ctx, sc.Coach, copied.ID, edit))(t)
	if saved.ID != copied.ID || saved.Drill != edit || saved.Name != "A second one" {
		t.Errorf("saved %+v", saved)
	}
	edit.Breaks = 0
	var p drill.Problems
	if _, err := s.SaveDrill(ctx, sc.Coach, copied.ID, edit); !errors.As(err, &p) || p.MessageFor("breaks") == "" {
		t.Errorf("a drill of no breaks: %v", err)
	}
	if _, err := s.SaveDrill(ctx, sc.StudentActor(0), copied.ID, edit); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student edits: %v", err)
	}
}

func TestListDrills_AStudentSeesTheirOwn(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	secret := must(s.CopyDrill(ctx, sc.Coach, sc.Drill.ID, store.DrillID{}, "For Bram"))(t)
	must(s.AssignDrill(ctx, sc.Coach, store.Assignment{Drill: secret.ID, Students: []store.PersonID{sc.StudentActor(1).Person}}))(t)
	for i, want := range []int{1, 2, 1} {
		if got := must(s.ListDrills(ctx, sc.StudentActor(i), store.ActiveOnly))(t); len(got) != want {
			t.Errorf("student %d sees %d drills, want %d", i, len(got), want)
		}
	}
	// Out of the class, what they have broken stays theirs to see.
	sc.RecordBreaks(t, sc.StudentActor(0), 1)
	for _, i := range []int{0, 2} {
		sc.ChangeStudents(t, store.RosterChange{Kind: store.RemoveFromClass, Class: sc.Class}, sc.StudentActor(i).Person)
	}
	for i, want := range map[int]int{0: 1, 2: 0} {
		if got := must(s.ListDrills(ctx, sc.StudentActor(i), store.ActiveOnly))(t); len(got) != want {
			t.Errorf("out of the class student %d sees %d drills, want %d", i, len(got), want)
		}
	}
}

func TestSaveTable_RecordsDoNotMix(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	renamed := sc.Table
	renamed.Name = "North 3"
	if got := must(s.SaveTable(ctx, sc.Coach, renamed))(t); got != renamed {
		t.Errorf("renamed: %+v", got)
	}
	renamed.Kind.CornerMouth = 4.25 // not broken on yet
	if got := must(s.SaveTable(ctx, sc.Coach, renamed))(t); got.ID != sc.Table.ID {
		t.Errorf("corrected: %+v", got)
	}
	set := sc.RecordBreaks(t, sc.StudentActor(0), 1)
	renamed.Kind.CornerMouth = 4.5
	replaced := must(s.SaveTable(ctx, sc.Coach, renamed))(t)
	if replaced.ID == sc.Table.ID || replaced.Name != "North 3" {
		t.Errorf("with other pockets: %+v", replaced)
	}
	alike := renamed
	alike.ID, alike.Name = store.NewID[store.TableID](), "East 1" // the same but for its name
	must(s.SaveTable(ctx, sc.Coach, alike))(t)
	if again := must(s.SaveTable(ctx, sc.Coach, renamed))(t); again.ID != replaced.ID {
		t.Errorf("a second click of the same change leads to %+v, not to %+v", again, replaced)
	}
	other := renamed
	other.Kind.CornerMouth = 4.75
	if _, err := s.SaveTable(ctx, sc.Coach, other); !errors.Is(err, store.ErrConflict) {
		t.Errorf("another change of a table that was replaced: %v", err)
	}
	if got := must(s.GetSet(ctx, sc.Coach, set))(t).Table; got.ID != sc.Table.ID || got.Kind.CornerMouth != 4.25 || !got.Archived {
		t.Errorf("the set is now on %+v", got)
	}
	if _, err := s.SaveTable(ctx, sc.Coach, store.Table{Name: "North 3", Kind: table.EightFoot()}); !errors.Is(err, store.ErrConflict) {
		t.Errorf("a second North 3: %v", err)
	}
	must(s.SaveTable(ctx, sc.Coach, store.Table{Name: "North 3", Venue: "The annexe", Kind: table.EightFoot()}))(t)
	var p drill.Problems
	if _, err := s.SaveTable(ctx, sc.Coach, store.Table{Name: "x", Kind: table.Kind{Feet: 10}}); !errors.As(err, &p) || p.MessageFor("kind") == "" {
		t.Errorf("a table of ten feet: %v", err)
	}
}
