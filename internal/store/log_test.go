package store_test

import (
	"errors"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

// fullSets use every column of the break log, two tables of one name and other
// kinds, and a set without times between two that have them.
func fullSets() []drill.Set {
	nine, tight := table.NineFoot(), table.NineFoot()
	tight.CornerMouth = 4.25
	smallSeven := table.SevenFoot()
	smallSeven.Small = true
	left := drill.StandardSetup(rack.NineBall, table.Left, nine)
	centre := left.Mirror()
	centre.Spot, centre.Spin, centre.Speed, centre.Contact = rack.CentreOnSpot, 0.1, 0, 0.15
	ten := drill.StandardSetup(rack.TenBall, table.Left, smallSeven)
	at := time.Date(2026, 3, 2, 18, 5, 0, 123456000, time.UTC)
	full := drill.Break{
		Number: 2, At: at.Add(2 * time.Minute), Speed: 18.4,
		Pocketed: []drill.Pocketed{{Ball: 8, Pocket: table.FootLeft}, {Ball: 2, Pocket: table.SideRight}},
		Cue:      drill.CueEnd{How: drill.Scratched, Scratch: table.HeadRight}, Off: []rack.Ball{7},
		CuePath: drill.PathHeadRail, Rest: []drill.RestingBall{{Ball: 1, Place: table.Place{X: -20.25, Y: 31.1}}, {Ball: 3}},
		Rails: drill.ObservedCount(0), PastString: drill.ObservedCount(3), Shot: drill.ShotHard, RanOut: drill.RanOutNo, Racked: drill.RackedLoose, Note: "kissed, \"twice\"\n",
	}
	off := drill.Break{Number: 1, Cue: drill.CueEnd{How: drill.OffTable}}
	plain := storetest.NewBreak(1).Break
	small := plain
	small.Rest = nil
	timed := plain
	timed.At = at
	return []drill.Set{
		{Student: "Odile", Name: "a1", Table: "North 2", Kind: tight, Setup: left, Breaks: []drill.Break{timed, full}},
		{Student: "Odile", Name: "a2", Table: "North 2", Kind: nine, Setup: centre, Breaks: []drill.Break{off}},
		{Student: "Odile", Name: "a0", Table: "North 2", Kind: nine, Setup: left, Breaks: []drill.Break{later(timed, 24*time.Hour)}},
		{Student: "Åsa", Name: "a1", Table: "Bar, 3", Kind: smallSeven, Setup: ten, Breaks: []drill.Break{small, with(small, 2)}},
	}
}

func later(b drill.Break, by time.Duration) drill.Break { b.At = b.At.Add(by); return b }
func with(b drill.Break, number int) drill.Break        { b.Number = number; return b }

// exported returns what is exported, but for the plans of the sets: drills and decisions
// do not come in by a log.
func exported(t *testing.T, sc storetest.Scene, scope store.ExportScope) []drill.Set {
	t.Helper()
	var all []drill.Set
	err := sc.Store.ExportSets(t.Context(), sc.Coach, scope, func(_ store.Person, sets []drill.Set) error {
		for _, set := range sets {
			set.Plan = drill.SetPlan{}
			all = append(all, set)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// bare is a club with a coach and nothing else.
func bare(t *testing.T) storetest.Scene {
	t.Helper()
	sc := storetest.Scene{Store: storetest.New(t)}
	sc.Coach, sc.Login = storetest.NewClub(t, sc.Store)
	return sc
}

func TestImport_ThenExportIsTheSame(t *testing.T) {
	t.Parallel()
	sc := bare(t)
	done := must(sc.Store.ImportSets(t.Context(), sc.Coach, fullSets()))(t)
	if len(done.Students) != 2 || len(done.Tables) != 3 || done.Sets != 4 || done.Duplicates != 0 {
		t.Errorf("imported %+v", done)
	}
	got := exported(t, sc, store.ExportScope{})
	if want := fullSets(); !reflect.DeepEqual(got, want) {
		t.Errorf("exported\n%+v\nwant\n%+v", got, want)
	}
	again := must(sc.Store.ImportSets(t.Context(), sc.Coach, got))(t)
	if len(again.Students) != 0 || len(again.Tables) != 0 || again.Sets != 0 || again.Duplicates != 4 {
		t.Errorf("again: %+v", again)
	}
	var live []string
	for _, table := range must(sc.Store.ListTables(t.Context(), sc.Coach, store.ActiveOnly))(t) {
		live = append(live, table.Label()+" "+table.Kind.String())
	}
	if want := []string{"Bar, 3 small 7 ft, corners 4.5 in, sides 5 in", "North 2 9 ft, corners 4.5 in, sides 5 in"}; !reflect.DeepEqual(live, want) {
		t.Errorf("tables in use: %q, want %q: of one name the one broken on last", live, want)
	}
}

func TestExport_IntoAFreshClub(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	must(s.SaveTable(ctx, sc.Coach, store.Table{ID: sc.Table.ID, Name: "North 2", Venue: "The annexe", Kind: sc.Table.Kind}))(t)
	twins := must(s.AddStudents(ctx, sc.Coach, uuid.Nil, sc.Class, []store.NewStudent{{Name: "Wen", Side: table.Left}, {Name: "Wen (2)"}}))(t)
	sc.Students = append(sc.Students, twins...)
	for i := range sc.Students {
		set := sc.RecordBreaks(t, sc.StudentActor(i), 3)
		if i%2 == 0 {
			sc.CloseSet(t, sc.StudentActor(i), set, -16)
		}
	}
	deleted := sc.RecordBreaks(t, sc.StudentActor(0), 3)
	second := must(s.GetSet(ctx, sc.Coach, deleted))(t).Breaks[1]
	if err := s.DeleteBreak(ctx, sc.StudentActor(0), deleted, second.ID, 2, ""); err != nil {
		t.Fatal(err)
	}
	sc.StartSet(t, sc.StudentActor(0)) // nothing recorded, nothing to export

	first := exported(t, sc, store.ExportScope{})
	var students []string
	for _, set := range first {
		students = append(students, set.Student)
		if set.Table != "The annexe, North 2" {
			t.Errorf("on table %q", set.Table)
		}
	}
	if got := strings.Join(students, "; "); got != "Bram; Odile; Odile; Wen; Wen (3); Wen (2)" {
		t.Errorf("students: %s", got)
	}
	fresh := bare(t)
	must(fresh.Store.ImportSets(ctx, fresh.Coach, first))(t)
	through := exported(t, fresh, store.ExportScope{})
	sortByStudent(first)
	sortByStudent(through)
	if !reflect.DeepEqual(first, through) {
		t.Errorf("through a fresh club:\n%+v\nwas\n%+v", through, first)
	}
	back := must(s.ImportSets(ctx, sc.Coach, through))(t)
	if back.Duplicates != len(first) || back.Sets != 0 || len(back.Students) != 0 || len(back.Tables) != 0 {
		t.Errorf("back in the first club: %+v", back)
	}
}

// sortByStudent brings exports of twins, who are Wen and Wen here and Wen and
// Wen (3) there, into one order.
func sortByStudent(sets []drill.Set) {
	for i := range sets {
		for j := i; j > 0 && sets[j].Student < sets[j-1].Student; j-- {
			sets[j], sets[j-1] = sets[j-1], sets[j]
		}
	}
}

func TestExport_Scopes(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	for i := range 2 {
		sc.RecordBreaks(t, sc.StudentActor(i), 1)
	}
	sc.ChangeStudents(t, store.RosterChange{Kind: store.RemoveFromClass, Class: sc.Class}, sc.StudentActor(1).Person)
	for want, scope := range map[string]store.ExportScope{
		"Bram Odile": {}, "Odile": {Class: sc.Class}, "Bram": {Student: sc.StudentActor(1).Person},
	} {
		var got []string
		for _, set := range exported(t, sc, scope) {
			got = append(got, set.Student)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%+v exports %v, want %s", scope, got, want)
		}
	}
	var own []string
	err := sc.Store.ExportSets(t.Context(), sc.StudentActor(0), store.ExportScope{}, func(p store.Person, _ []drill.Set) error {
		own = append(own, p.Name)
		return nil
	})
	if err != nil || strings.Join(own, " ") != "Odile" {
		t.Errorf("a student exports %v, %v", own, err)
	}
	full := errors.New("the disk is full")
	if err := sc.Store.ExportSets(t.Context(), sc.Coach, store.ExportScope{}, func(store.Person, []drill.Set) error { return full }); !errors.Is(err, full) {
		t.Errorf("a failing hand: %v", err)
	}
}

func TestImport_AllOrNone(t *testing.T) {
	t.Parallel()
	sc := bare(t)
	ctx := t.Context()
	bad := fullSets()
	bad[3].Breaks[1].Number = 5
	var p drill.Problems
	if _, err := sc.Store.ImportSets(ctx, sc.Coach, bad); !errors.As(err, &p) || p.MessageFor("break") == "" {
		t.Errorf("a gap in the numbers: %v", err)
	}
	must(sc.Store.ImportSets(ctx, sc.Coach, fullSets()[3:]))(t)
	other := fullSets()
	other[3].Breaks[0].Note = "not the same"
	if _, err := sc.Store.ImportSets(ctx, sc.Coach, other); !errors.Is(err, store.ErrConflict) {
		t.Errorf("another set of that name: %v", err)
	}
	if got := exported(t, sc, store.ExportScope{}); !reflect.DeepEqual(got, fullSets()[3:]) {
		t.Errorf("a refused import left something behind: %+v", got)
	}
	if _, err := sc.Store.ImportSets(ctx, store.Actor{Club: sc.Coach.Club, Role: store.Student}, fullSets()); !errors.Is(err, store.ErrNotAllowed) {
		t.Errorf("a student imports: %v", err)
	}
}

func TestImport_WithoutATable(t *testing.T) {
	t.Parallel()
	sc := bare(t)
	sets := fullSets()[:1]
	sets[0].Table = ""
	must(sc.Store.ImportSets(t.Context(), sc.Coach, sets))(t)
	if again := must(sc.Store.ImportSets(t.Context(), sc.Coach, sets))(t); again.Duplicates != 1 {
		t.Errorf("again: %+v", again)
	}
	if got := exported(t, sc, store.ExportScope{}); got[0].Table != store.UnnamedTable {
		t.Errorf("on table %q", got[0].Table)
	}
}

func TestHistories_OldestFirst(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx := t.Context()
	for range 3 {
		for i := range 2 {
			sc.CloseSet(t, sc.StudentActor(i), sc.RecordBreaks(t, sc.StudentActor(i), 2), -18)
		}
	}
	open := sc.RecordBreaks(t, sc.StudentActor(0), 2)
	both := []store.PersonID{sc.StudentActor(0).Person, sc.StudentActor(1).Person}
	histories := must(sc.Store.GetHistories(ctx, sc.Coach, both))(t)
	for _, id := range both {
		h := histories[id]
		if one := must(sc.Store.GetHistory(ctx, sc.Coach, id))(t); !reflect.DeepEqual(one, h) {
			t.Errorf("alone %+v, together %+v", one, h)
		}
		if len(h.Sets) != 3 || len(h.IDs) != 3 || len(drill.GroupStints(h.Sets)) != 1 {
			t.Fatalf("history of %d sets", len(h.Sets))
		}
		for i, set := range h.Sets {
			if h.IDs[i] == open {
				t.Error("an open set is in it")
			}
			if i > 0 && set.Name < h.Sets[i-1].Name {
				t.Errorf("%s comes after %s", set.Name, h.Sets[i-1].Name)
			}
		}
	}
	if hidden := must(sc.Store.GetHistories(ctx, sc.StudentActor(0), both))(t); len(hidden) != 1 {
		t.Errorf("a student sees %d histories", len(hidden))
	}
}

// A set from paper without a time of day keeps its day: through a break log into
// another club, where it is the same record at the same place.
func TestExport_ADayWithoutTimes(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	if err := sc.Store.ChangeClub(t.Context(), sc.Coach, store.Club{Name: "Quay", Zone: "Asia/Tokyo"}); err != nil {
		t.Fatal(err)
	}
	paper, days := typed(sc, 0, 10), []time.Time{}
	for range 2 { // both of one day: they are told apart by name
		paper.ID = store.NewID[store.SetID]()
		set := must(sc.Store.SavePaperSet(t.Context(), sc.Coach, paper, storetest.ProposeMove(-18)))(t)
		days = append(days, set.Started.Truncate(time.Minute))
	}
	log := exported(t, sc, store.ExportScope{})
	for _, set := range log {
		if !set.FirstBreakTime().IsZero() {
			t.Fatalf("%s has a time that nobody wrote down: %v", set.Name, set.FirstBreakTime())
		}
	}
	fresh := storetest.AddScene(t, sc.Store)
	if err := sc.Store.ChangeClub(t.Context(), fresh.Coach, store.Club{Name: "Pier", Zone: "Asia/Tokyo"}); err != nil {
		t.Fatal(err)
	}
	must(sc.Store.ImportSets(t.Context(), fresh.Coach, log))(t)
	if again := exported(t, fresh, store.ExportScope{}); !reflect.DeepEqual(again, log) {
		t.Errorf("exported again:\n%+v\nwant\n%+v", again, log)
	}
	sets := must(sc.Store.ListSets(t.Context(), fresh.Coach, fresh.Students[0].ID))(t)
	for n, set := range sets {
		if want := days[len(days)-1-n]; !set.Started.Truncate(time.Minute).Equal(want) {
			t.Errorf("%s was begun at %v, want %v", set.Name, set.Started, want)
		}
	}
	if len(sets) != 2 {
		t.Errorf("%d sets came over, want 2", len(sets))
	}
	if done := must(sc.Store.ImportSets(t.Context(), sc.Coach, log))(t); done.Sets != 0 || done.Duplicates != 2 {
		t.Errorf("into the club it came from: %+v", done)
	}
}
