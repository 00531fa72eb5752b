package store_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
)

// What is typed is taken up to its limit, and one more is refused beside its field.
func TestLimits_OfWhatIsTyped(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	set := sc.StartSet(t, odile).ID
	most, first, second := storetest.NewBreak(1), storetest.NewBreak(2), storetest.NewBreak(3)
	for _, b := range []store.Break{first, second} {
		must(s.SaveBreak(ctx, odile, set, b))(t)
	}
	saveAt := func(revision int) func() error {
		return func() error {
			most.Revision = revision
			_, err := s.SaveBreak(ctx, odile, set, most)
			return err
		}
	}
	assignment := func(note string) func() error {
		return func() error {
			_, err := s.AssignDrill(ctx, sc.Coach, store.Assignment{Drill: sc.Drill.ID, Class: sc.Class, Note: note})
			return err
		}
	}
	changed := func(note string) func() error {
		return func() error {
			return s.ChangeAssignment(ctx, sc.Coach, sc.Assignment, time.Time{}, note)
		}
	}
	takeOut := func(b store.Break, revision int, reason string) func() error {
		return func() error { return s.DeleteBreak(ctx, odile, set, b.ID, revision, reason) }
	}
	const highest = 1_000_000_000
	note, reason := strings.Repeat("ü", 2000), strings.Repeat("r", 120)
	for _, c := range []struct {
		name, field string
		do          func() error
	}{
		{"a note of two thousand letters", "", assignment(note)},
		{"one of a letter more", "note", assignment(note + "ü")},
		{"a changed note of two thousand", "", changed(note)},
		{"one of a letter more", "note", changed(note + "ü")},
		{"no revision", "revision", saveAt(0)},
		{"the highest revision", "", saveAt(highest)},
		{"one more", "revision", saveAt(highest + 1)},
		{"taken out with a long reason", "reason", takeOut(first, 2, reason+"r")},
		{"with one at its limit", "", takeOut(first, 2, reason)},
		{"as a revision too high", "revision", takeOut(second, highest+1, "")},
		{"as the highest", "", takeOut(second, highest, "")},
	} {
		var p drill.Problems
		err := c.do()
		if c.field == "" && err != nil || c.field != "" && (!errors.As(err, &p) || p.MessageFor(c.field) == "") {
			t.Errorf("%s: %v, want a word about %q", c.name, err, c.field)
		}
	}
}

// A form that is sent twice assigns once; the same form for another class, another drill or
// another side is refused.
func TestAssignDrill_TheSameFormForSomethingElse(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s := t.Context(), sc.Store
	friday := must(s.SaveClass(ctx, sc.Coach, store.Class{Name: "Friday"}))(t)
	other := must(s.CopyDrill(ctx, sc.Coach, sc.Drill.ID, store.DrillID{}, "Another"))(t)
	a := store.Assignment{Drill: sc.Drill.ID, Class: sc.Class, Side: table.Left}
	a.ID = must(s.AssignDrill(ctx, sc.Coach, a))(t)
	if _, err := s.AssignDrill(ctx, sc.Coach, a); err != nil {
		t.Errorf("a second click: %v", err)
	}
	for name, change := range map[string]func(*store.Assignment){
		"another class": func(a *store.Assignment) { a.Class = friday },
		"another drill": func(a *store.Assignment) { a.Drill = other.ID },
		"another side":  func(a *store.Assignment) { a.Side = table.Right },
	} {
		again := a
		change(&again)
		if _, err := s.AssignDrill(ctx, sc.Coach, again); !errors.Is(err, store.ErrConflict) {
			t.Errorf("%s: %v, want a conflict", name, err)
		}
	}
	page := must(s.PageAssignments(ctx, sc.Coach, store.AssignmentFilter{Skip: -3}))(t)
	if page.Total != 2 || len(page.List) != 2 {
		t.Errorf("from before the first on %d of %d are given, want both", len(page.List), page.Total)
	}
}

// What cannot be is refused beside its field, and what is like it but can be is taken.
func TestRefusals_BesideTheirField(t *testing.T) {
	t.Parallel()
	sc := storetest.NewScene(t)
	ctx, s, odile := t.Context(), sc.Store, sc.StudentActor(0)
	set := sc.StartSet(t, odile).ID
	assign := func(a store.Assignment) func() error {
		a.Drill = sc.Drill.ID
		return func() error { _, err := s.AssignDrill(ctx, sc.Coach, a); return err }
	}
	saveTable := func(name, venue string) func() error {
		return func() error {
			_, err := s.SaveTable(ctx, sc.Coach, store.Table{Name: name, Venue: venue, Kind: table.NineFoot()})
			return err
		}
	}
	saveClub := func(units store.UnitChoice, zone string) func() error {
		return func() error {
			return s.ChangeClub(ctx, sc.Coach, store.Club{Name: "Harbour Lane", Units: units, Zone: zone})
		}
	}
	setSides := func(side table.Side) func() error {
		return func() error {
			_, err := s.ChangeStudents(ctx, sc.Coach, store.RosterChange{Kind: store.SetSides, Side: side}, []store.PersonID{odile.Person})
			return err
		}
	}
	add := func(side table.Side) func() error {
		return func() error {
			_, err := s.AddStudents(ctx, sc.Coach, uuid.Nil, sc.Class, []store.NewStudent{{Name: "Mira", Side: side}})
			return err
		}
	}
	post := func(body string) func() error {
		return func() error { return s.PostMessage(ctx, odile, store.MessageID{}, set, body) }
	}
	students, letters := []store.PersonID{odile.Person}, strings.Repeat
	for name, c := range map[string]struct {
		field string
		do    func() error
	}{
		"assigned to nobody": {"students", assign(store.Assignment{})}, "to a class and students": {"students", assign(store.Assignment{Class: sc.Class, Students: students})},
		"to students": {"", assign(store.Assignment{Students: students})}, "to a class": {"", assign(store.Assignment{Class: sc.Class})},
		"a table of no name": {"name", saveTable("", "")}, "of no venue": {"", saveTable("West", "")}, "of a venue": {"", saveTable("West", "The annexe")},
		"a venue of two lines": {"venue", saveTable("West", "The\nannexe")}, "a label of 120 letters": {"", saveTable(letters("w", 60), letters("v", 58))},
		"one of 121": {"venue", saveTable(letters("w", 60), letters("v", 59))},
		"inches":     {"", saveClub(store.Inches, "UTC")}, "centimetres": {"", saveClub(store.Centimetres, "UTC")}, "cubits": {"units", saveClub("cubits", "UTC")}, "no units": {"", saveClub("", "")},
		"this machine's zone": {"zone", saveClub(store.Inches, "Local")},
		"all left":            {"", setSides(table.Left)}, "all right": {"", setSides(table.Right)}, "all of no side": {"", setSides("")}, "all in the middle": {"side", setSides("middle")},
		"one from the left": {"", add(table.Left)}, "from the right": {"", add(table.Right)}, "of no side": {"", add("")}, "from the middle": {"names", add("middle")},
		"an empty message": {"body", post(" \n")}, "one of 2000 letters": {"", post(letters("ü", 2000))}, "of 2001": {"body", post(letters("ü", 2001))},
	} {
		var p drill.Problems
		err := c.do()
		if c.field == "" && err != nil || c.field != "" && (!errors.As(err, &p) || p.MessageFor(c.field) == "") {
			t.Errorf("%s: %v, want a word about %q", name, err, c.field)
		}
	}
}
