package store_test

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"testing"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

// renamed gives the sets other names.
func renamed(sets []drill.Set) []drill.Set {
	for i := range sets {
		sets[i].Name += " once more"
	}
	return sets
}

func TestPreviewImport_SaysWhatImportDoes(t *testing.T) {
	t.Parallel()
	sc := bare(t)
	ctx, s := t.Context(), sc.Store
	preview := must(s.PreviewImport(ctx, sc.Coach, fullSets()))(t)
	want := store.ImportPreview{
		Students: []store.PreviewStudent{{Name: "Odile", Sets: 3, Breaks: 4}, {Name: "Åsa", Sets: 1, Breaks: 2}},
		New:      4, Breaks: 6, Names: []string{},
	}
	tables := preview.Tables
	preview.Tables = nil
	if !reflect.DeepEqual(preview, want) || len(tables) != 3 || tables[1].Known || tables[1].Sets != 2 {
		t.Errorf("into an empty club: %+v with tables %+v", preview, tables)
	}
	if all := exported(t, sc, store.ExportScope{}); len(all) != 0 {
		t.Errorf("a preview kept %d sets", len(all))
	}
	must(s.ImportSets(ctx, sc.Coach, fullSets()[3:]))(t)
	preview = must(s.PreviewImport(ctx, sc.Coach, fullSets()))(t)
	if preview.New != 3 || preview.Duplicates != 1 || preview.Breaks != 4 || !preview.Students[1].Known || preview.Students[0].Known || !preview.Tables[2].Known {
		t.Errorf("with a part there: %+v", preview)
	}
	must(s.ImportSets(ctx, sc.Coach, fullSets()))(t)
	changed := fullSets()
	changed[1].Breaks[0].Note = "not the same"
	preview = must(s.PreviewImport(ctx, sc.Coach, changed))(t)
	if preview.New != 0 || preview.Duplicates != 3 || !reflect.DeepEqual(preview.Clashes, []store.NameClash{{Student: "Odile", Set: "a2"}}) {
		t.Errorf("with another set of a name: %+v", preview)
	}
	if _, err := s.ImportSets(ctx, sc.Coach, changed); !errors.Is(err, store.ErrConflict) {
		t.Errorf("a clash is imported: %v", err)
	}
	if !reflect.DeepEqual(preview.Names, []string{"Odile", "Åsa"}) {
		t.Errorf("names: %q", preview.Names)
	}
}

func TestPreviewImport_Refuses(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	bad := fullSets()
	bad[0].Kind = table.Kind{Feet: 12}
	var p drill.Problems
	if _, err := sc.Store.PreviewImport(t.Context(), sc.Coach, bad); !errors.As(err, &p) {
		t.Errorf("a table of twelve feet: %v", err)
	}
	if _, err := sc.Store.PreviewImport(t.Context(), sc.StudentActor(0), fullSets()); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student: %v", err)
	}
}

// What was recorded on a phone under a speed that was asked for, and comes back
// from a file that has only measured ones, is the same set.
func TestImport_TheSpeedAskedForIsNotInAFile(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	sc.CloseSet(t, sc.StudentActor(0), sc.RecordBreaks(t, sc.StudentActor(0), 3), -18)
	sets := exported(t, sc, store.ExportScope{})
	sets[0].Setup.Speed = 0
	done := must(sc.Store.ImportSets(t.Context(), sc.Coach, sets))(t)
	if done.Duplicates != 1 || done.Sets != 0 {
		t.Errorf("%+v", done)
	}
}

// The next advice of a student knows what was imported.
func TestImport_IsHistory(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	old := exportedOf(t, sc, 4)
	old[0].Name, old[0].Breaks[0].At = "from paper", time.Date(2025, 1, 2, 3, 4, 5, 0, time.UTC)
	must(sc.Store.ImportSets(t.Context(), sc.Coach, old))(t)
	set := sc.RecordBreaks(t, sc.StudentActor(0), 2)
	var seen []string
	err := sc.Store.CloseSet(t.Context(), sc.StudentActor(0), set, func(c store.Case) (store.Judgement, error) {
		for _, s := range c.Sets {
			seen = append(seen, s.Name)
		}
		return storetest.ProposeMove(-18)(c)
	})
	if err != nil || len(seen) != 2 || seen[0] != "from paper" {
		t.Errorf("the adviser was shown %q, %v", seen, err)
	}
}

// exportedOf are a set of n breaks of the first student, of another scene.
func exportedOf(t *testing.T, sc storetest.Scene, n int) []drill.Set {
	t.Helper()
	other := storetest.AddScene(t, sc.Store)
	other.RecordBreaks(t, other.StudentActor(0), n)
	return exported(t, other, store.ExportScope{})
}

func TestCountBreaks(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	other := storetest.AddScene(t, sc.Store)
	other.RecordBreaks(t, other.StudentActor(0), 9)
	sc.RecordBreaks(t, sc.StudentActor(0), 3)
	sc.RecordBreaks(t, sc.StudentActor(1), 4)
	for want, scope := range map[int]store.ExportScope{7: {}, 3: {Student: sc.StudentActor(0).Person}} {
		if got := must(sc.Store.CountBreaks(t.Context(), sc.Coach, scope))(t); got != want {
			t.Errorf("%+v has %d breaks, want %d", scope, got, want)
		}
	}
	if got := must(sc.Store.CountBreaks(t.Context(), sc.Coach, store.ExportScope{Class: sc.Class}))(t); got != 7 {
		t.Errorf("the class has %d", got)
	}
	if _, err := sc.Store.CountBreaks(t.Context(), sc.Coach, store.ExportScope{Class: other.Class}); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("another club's class: %v", err)
	}
}

// Of tables of one name that differ in their pockets the one that was broken on last is in
// use, unless one of that name is in use already; sets find the table that they name.
func TestImport_TablesOfOneName(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	from := exportedOf(t, sc, 2)[0]
	tight, loose := sc.Table.Kind, sc.Table.Kind
	tight.CornerMouth, loose.CornerMouth = 4.25, 5
	var sets []drill.Set
	on := func(label string, k table.Kind, year int) {
		set := from
		set.Table, set.Kind, set.Name, set.Breaks = label, k, fmt.Sprint(label, " ", year), slices.Clone(from.Breaks)
		for i := range set.Breaks {
			set.Breaks[i].At = time.Date(year, 3, 1, 18, i, 0, 0, time.UTC)
		}
		sets = append(sets, set)
	}
	on("North 2", tight, 2026) // the newest, but another of its name is in use
	on("South", loose, 2025)
	on("South", tight, 2024)
	on("North 2", sc.Table.Kind, 2025)
	done := must(s.ImportSets(ctx, sc.Coach, sets))(t)
	if done.Sets != 4 || len(done.Tables) != 3 {
		t.Errorf("%d sets and the tables %+v are new", done.Sets, done.Tables)
	}
	inUse := map[string][]table.Inches{}
	for _, pool := range must(s.ListTables(ctx, sc.Coach, store.ActiveOnly))(t) {
		inUse[pool.Label()] = append(inUse[pool.Label()], pool.Kind.CornerMouth)
	}
	if want := map[string][]table.Inches{"North 2": {sc.Table.Kind.CornerMouth}, "South": {5}}; !reflect.DeepEqual(inUse, want) {
		t.Errorf("in use are %v, want %v", inUse, want)
	}
	if again := must(s.ImportSets(ctx, sc.Coach, sets))(t); again.Duplicates != 4 || len(again.Tables) != 0 {
		t.Errorf("brought in again: %+v", again)
	}
}
