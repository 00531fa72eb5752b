package store_test

import (
	"errors"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

// What was put away comes back as it was; a class with its open assignments.
func TestRestore_TakesBackWhatWasPutAway(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, other := t.Context(), sc.Store, storetest.AddScene(t, sc.Store)
	spare := must(s.CopyDrill(ctx, sc.Coach, sc.Drill.ID, store.DrillID{}, "Spare"))(t)
	for name, c := range map[string]struct {
		archive, restore func(store.Actor) error
		live, archived   func() bool
	}{
		"class": {
			func(v store.Actor) error { return s.ArchiveClass(ctx, v, sc.Class) },
			func(v store.Actor) error { return s.RestoreClass(ctx, v, sc.Class) },
			func() bool { return len(must(s.GetToday(ctx, sc.StudentActor(0)))(t).Tasks) == 1 },
			func() bool { class, _, err := s.GetClass(ctx, sc.Coach, sc.Class); return err == nil && class.Archived },
		},
		"table": {
			func(v store.Actor) error { return s.ArchiveTable(ctx, v, sc.Table.ID) },
			func(v store.Actor) error { return s.RestoreTable(ctx, v, sc.Table.ID) },
			func() bool { return len(must(s.ListTables(ctx, sc.Coach, store.ActiveOnly))(t)) == 1 },
			func() bool { return must(s.ListTables(ctx, sc.Coach, store.WithArchived))(t)[0].Archived },
		},
		"drill": {
			func(v store.Actor) error { return s.ArchiveDrill(ctx, v, spare.ID) },
			func(v store.Actor) error { return s.RestoreDrill(ctx, v, spare.ID) },
			func() bool { return len(must(s.ListDrills(ctx, sc.Coach, store.ActiveOnly))(t)) == 2 },
			func() bool { return must(s.GetDrill(ctx, sc.Coach, spare.ID))(t).Archived },
		},
	} {
		if err := c.archive(sc.Coach); err != nil || c.live() || !c.archived() {
			t.Fatalf("the %s is not put away (%v)", name, err)
		}
		if err := c.restore(other.Coach); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("another club restores the %s: %v", name, err)
		}
		if err := c.restore(sc.StudentActor(0)); !errors.Is(err, store.ErrNotAllowed) {
			t.Errorf("a student restores the %s: %v", name, err)
		}
		for range 2 { // a second click
			if err := c.restore(sc.Coach); err != nil || !c.live() || c.archived() {
				t.Errorf("the %s does not come back (%v)", name, err)
			}
		}
	}
}

// Two tables of one name at one place, or two versions of one drill, would be one
// too many.
func TestRestore_RefusesWhatWasReplaced(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	sc.RecordBreaks(t, sc.StudentActor(0), 1)
	tighter := sc.Table
	tighter.Kind = table.Kind{Feet: 9, CornerMouth: 4.25, SideMouth: 4.875}
	if now := must(s.SaveTable(ctx, sc.Coach, tighter))(t); now.ID == sc.Table.ID {
		t.Fatal("a table that was broken on was changed, not replaced")
	}
	if err := s.RestoreTable(ctx, sc.Coach, sc.Table.ID); !errors.Is(err, store.ErrConflict) {
		t.Errorf("a table of the same name comes back: %v", err)
	}
	harder := sc.Drill.Drill
	harder.Targets.Wing = 0.9
	if now := must(s.SaveDrill(ctx, sc.Coach, sc.Drill.ID, harder))(t); now.ID == sc.Drill.ID {
		t.Fatal("a drill that was assigned was changed, not replaced")
	}
	if err := s.RestoreDrill(ctx, sc.Coach, sc.Drill.ID); !errors.Is(err, store.ErrConflict) {
		t.Errorf("an older version comes back: %v", err)
	}
	if err := s.RestoreDrill(ctx, sc.Coach, store.NewID[store.DrillID]()); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("a drill that is not there comes back: %v", err)
	}
}
