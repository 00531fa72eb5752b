package drills_test

import (
	"errors"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

// assignments returns the open ones of the club.
func (d *coachClient) assignments(t testing.TB) []store.ListedAssignment {
	t.Helper()
	all, err := d.Store.ListAssignments(t.Context(), d.Coach, store.ActiveOnly)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestAssign_ADoubleClickAssignsOnce(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	path := "/drills/" + d.Drill.ID.String() + "/assign"
	day := time.Now().UTC().AddDate(0, 0, 3).Format(time.DateOnly)
	form := with(d.get(t, path).RequireStatus(t, http.StatusOK).FormValues(t, "main form"), "class", d.Class.String(), "due", day, "note", "Slowly 🎱")
	first := d.post(t, path, form).RequireStatus(t, http.StatusOK)
	first.RequireText(t, "main", "For Thursday evening", "due ", "Slowly 🎱", "Nobody of 3 has done it yet")
	if again := d.post(t, path, form); again.Path != first.Path {
		t.Errorf("a second click led to %s, the first to %s", again.Path, first.Path)
	}
	if n := len(d.assignments(t)); n != 2 {
		t.Errorf("%d assignments are open, want the scene's and this one", n)
	}
}

func TestAssign_FromBothSidesAtOnce(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	path := "/drills/" + d.Drill.ID.String() + "/assign"
	form := with(d.get(t, path).RequireCount(t, "[name=sides]", 2).FormValues(t, "main form"), "class", d.Class.String(), "sides", "both")
	for range 2 { // a second click
		p := d.post(t, path, form).RequireStatus(t, http.StatusOK).RequireText(t, ".notice.good", "from the left and from the right")
		p.RequireText(t, ".answer", "3 assignments are open").RequireText(t, ".rows", d.Drill.Name+", from the left", d.Drill.Name+", from the right")
	}
	for _, a := range d.assignments(t) {
		want := a.Assignment.Name(d.Drill.Name)
		d.get(t, "/assignments/"+a.ID.String()).RequireText(t, "h1", want)
	}
	// Called back, and one side chosen: that is another assignment.
	d.post(t, path, with(form, "sides", "")).RequireText(t, ".answer", "Nobody of 3 has done it yet")
	if n := len(d.assignments(t)); n != 4 {
		t.Errorf("%d assignments are open, want 4", n)
	}
	both := d.post(t, path, with(form, "note", "By mistake"))
	d.post(t, both.AttributeOf(t, ".notice.good form", "action"), both.FormValues(t, ".notice.good form")).RequireText(t, ".notice.good", "Both are ended")
	if n := len(d.assignments(t)); n != 4 {
		t.Errorf("%d assignments are open after undoing two, want 4", n)
	}
}

// A long list comes in parts; the answer counts all of it.
func TestAssignments_InParts(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	for range 119 {
		if _, err := d.Store.AssignDrill(t.Context(), d.Coach, store.Assignment{Drill: d.Drill.ID, Class: d.Class}); err != nil {
			t.Fatal(err)
		}
	}
	p, seen := d.get(t, "/assignments"), map[string]bool{}
	for _, want := range []string{"1 to 50 of 120", "51 to 100 of 120", "101 to 120 of 120"} {
		p.RequireStatus(t, http.StatusOK).RequireText(t, ".answer", "120 assignments are open").RequireText(t, "nav.actions", want)
		for _, n := range p.FindAll(t, ".rows a") {
			seen[n.Attr[0].Val] = true
		}
		if next := p.AttributeOf(t, "nav.actions a:last-child", "href"); want[:3] != "101" {
			p = d.get(t, next)
		}
	}
	if len(seen) != 120 {
		t.Errorf("%d of 120 assignments are listed", len(seen))
	}
	p.RequireCount(t, "nav.actions a", 1)
	d.get(t, "/assignments?from=500").RequireText(t, ".answer", "The list ends before this")
	d.get(t, "/assignments?from=-3").RequireCount(t, ".rows li", 50)
	d.get(t, "/assignments?from=x&ended=1").RequireText(t, ".answer", "No assignment has ended yet")
}

func TestAssign_ToSingleStudents(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	path := "/drills/" + d.Drill.ID.String() + "/assign"
	form := d.get(t, path).FormValues(t, "main form")
	form["students"] = []string{d.Students[0].ID.String(), d.Students[2].ID.String(), d.Students[0].ID.String()}
	p := d.post(t, path, form).RequireStatus(t, http.StatusOK).RequireText(t, "main", "For 2 students", "no due day")
	p.RequireText(t, "tbody", "Odile", "Wen").RequireCount(t, "tbody tr", 2)
}

func TestAssign_RefusesBesideTheField(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	path := "/drills/" + d.Drill.ID.String() + "/assign"
	form := d.get(t, path).FormValues(t, "main form")
	d.post(t, path, form).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "#class-error", "Choose a class, or tick")
	both := with(form, "class", d.Class.String(), "students", d.Students[1].ID.String(), "due", "2001-01-01", "note", strings.Repeat("n", 2001))
	p := d.post(t, path, both).RequireStatus(t, http.StatusUnprocessableEntity)
	p.RequireText(t, "#class-error", "not both").RequireText(t, "#due-error", "That day is over").RequireText(t, "#note-error", "2001 letters; 2000 is the most")
	p.RequireCount(t, "[name=students][checked]", 1)
	p = d.post(t, path, with(form, "class", d.Class.String(), "due", "Friday")).RequireStatus(t, http.StatusUnprocessableEntity)
	p.RequireText(t, "#due-error", "year, month and day")
}

func TestAssign_NamesThoseWhoseSideIsNotKnown(t *testing.T) {
	scene := storetest.NewScene(t)
	_, err := scene.Store.AddStudents(t.Context(), scene.Coach, [16]byte{}, scene.Class, []store.NewStudent{{Name: "Tove"}})
	if err != nil {
		t.Fatal(err)
	}
	d := newCoachClient(t, scene)
	d.get(t, "/drills/"+d.Drill.ID.String()+"/assign").RequireText(t, ".notice", "Nobody has said yet", "Tove", "from the left")
}

func TestAssignment_SaysWhoHasDoneIt(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	set := d.RecordBreaks(t, d.StudentActor(0), 10)
	d.CloseSet(t, d.StudentActor(0), set, -16)
	open := d.RecordBreaks(t, d.StudentActor(1), 4)
	p := d.get(t, "/assignments/"+d.Assignment.String()).RequireStatus(t, http.StatusOK)
	p.RequireText(t, ".answer", "1 of 3 has done it.")
	p.RequireCount(t, "tbody tr", 3).RequireCount(t, `a[href="/sets/`+set.String()+`"]`, 1).RequireCount(t, `a[href="/sets/`+open.String()+`"]`, 1)
	p.RequireText(t, "tbody tr:nth-child(2)", "Odile", "1", "10", "one change proposed", "waits for you")
	p.RequireText(t, "tbody tr:nth-child(1)", "Bram", "0", "4", "at it since").RequireText(t, "tbody tr:nth-child(3)", "Wen", "not begun")
	d.get(t, "/assignments").RequireText(t, ".rows li", "Find the wing ball", "Thursday evening", "1 of 3 has done it")
}

func TestAssignment_ChangesAndEnds(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	path := "/assignments/" + d.Assignment.String()
	day := time.Now().UTC().AddDate(0, 0, 9).Format(time.DateOnly)
	d.post(t, path, url.Values{"due": {day}, "note": {"Level the cue"}}).RequireText(t, ".notice.good", "Changed").RequireText(t, "main", "Level the cue")
	d.post(t, path, url.Values{"due": {"1999-12-31"}}).RequireStatus(t, http.StatusUnprocessableEntity).
		RequireText(t, "#due-error", "That day is over").RequireCount(t, "details[open]", 1)
	for range 2 {
		ended := d.post(t, path+"/end", nil).RequireText(t, "main", "Ended").RequireCount(t, "form[action$='/end']", 0)
		undo := ended.AttributeOf(t, ".notice.good form", "action")
		d.post(t, undo, nil).RequireText(t, ".notice.good", "again").RequireCount(t, "form[action$='/end']", 1)
		if n := len(d.assignments(t)); n != 1 {
			t.Errorf("%d assignments are open after the end was undone", n)
		}
	}
	d.post(t, path+"/end", nil)
	if n := len(d.assignments(t)); n != 0 {
		t.Errorf("%d assignments are open after the only one ended", n)
	}
	d.get(t, "/assignments").RequireText(t, ".answer", "No assignment is open")
	d.get(t, "/assignments?ended=1").RequireText(t, ".answer", "1 assignment has ended").RequireText(t, ".rows li", d.Drill.Name)
}

func TestAssignment_ADayThatIsOverMayStay(t *testing.T) {
	d := newCoachClient(t, storetest.NewScene(t))
	past := time.Date(2020, 5, 4, 0, 0, 0, 0, time.UTC)
	if err := d.Store.ChangeAssignment(t.Context(), d.Coach, d.Assignment, past, ""); err != nil {
		t.Fatal(err)
	}
	path := "/assignments/" + d.Assignment.String()
	d.post(t, path, url.Values{"due": {"2020-05-04"}, "note": {"One more week"}}).RequireStatus(t, http.StatusOK).
		RequireText(t, "main", "was due Monday 4 May 2020", "One more week")
	d.post(t, path, url.Values{"due": {"2020-05-03"}}).RequireStatus(t, http.StatusUnprocessableEntity)
	d.get(t, "/assignments").RequireText(t, ".answer", "1 assignment is open, 1 of them past its day")
}

func TestAssignments_OfAnotherClubAreNotThere(t *testing.T) {
	scene := storetest.NewScene(t)
	other := storetest.AddScene(t, scene.Store)
	d := newCoachClient(t, scene)
	path := "/assignments/" + other.Assignment.String()
	assign := "/drills/" + d.Drill.ID.String() + "/assign"
	form := d.get(t, assign).FormValues(t, "main form")
	for what, try := range map[string]func(){
		"show":               func() { d.get(t, path) },
		"change":             func() { d.post(t, path, url.Values{"note": {"mine"}}) },
		"end":                func() { d.post(t, path+"/end", nil) },
		"take up again":      func() { d.post(t, path+"/resume", nil) },
		"their class":        func() { d.post(t, assign, with(form, "class", other.Class.String())) },
		"their student":      func() { d.post(t, assign, with(form, "students", other.Students[0].ID.String())) },
		"no class":           func() { d.post(t, assign, with(form, "class", "everybody")) },
		"no student's id":    func() { d.post(t, assign, with(form, "students", "1")) },
		"no assignment's id": func() { d.get(t, "/assignments/1") },
	} {
		if try(); !errors.Is(d.failed, store.ErrNotFound) {
			t.Errorf("%s: %v, want not found", what, d.failed)
		}
	}
	if n := len(d.assignments(t)); n != 1 {
		t.Errorf("%d assignments are open, want the scene's", n)
	}
}
