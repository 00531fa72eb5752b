package roster_test

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/web/webtest"
)

// eighty is a class of eighty students, pasted as one list.
type eighty struct {
	*site
	class store.ClassID
	other store.ClassID
	// added is the page that says they are added.
	added *webtest.Page
}

func newEighty(t *testing.T) eighty {
	t.Helper()
	e := eighty{site: newSite(t)}
	for into, name := range map[*store.ClassID]string{&e.class: "All of the school", &e.other: "Saturday"} {
		made := e.post(t, "/classes", made("name", name)).RequireStatus(t, http.StatusOK)
		var err error
		if *into, err = store.ParseID[store.ClassID](strings.TrimPrefix(made.Path, "/classes/")); err != nil {
			t.Fatal(err)
		}
	}
	var lines []string
	for i := range 80 {
		lines = append(lines, fmt.Sprintf("%d. Pupil-%02d, %s", i+1, i+1, []string{"left", "right"}[i%2]))
	}
	path := "/classes/" + e.class.String()
	form := e.get(t, path).FormValues(t, "form[action$='/students']")
	form.Set("names", strings.Join(lines, "\n"))
	look := e.post(t, path+"/students", form).RequireText(t, "#look", "Read as 80 students")
	e.added = e.post(t, path+"/students", look.FormValues(t, "form[action$='/students']")).RequireText(t, ".notice.good", "80 students added")
	return e
}

// state is what a change may touch, one line a student of the eighty.
func (e eighty) state(t *testing.T) string {
	t.Helper()
	all, err := e.Store.ListRoster(t.Context(), e.Coach)
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, s := range all {
		if strings.HasPrefix(s.Name, "Pupil-") {
			lines = append(lines, fmt.Sprint(s.Name, s.Side, s.IsIn(e.class), s.IsIn(e.other), s.Archived))
		}
	}
	if len(lines) != 80 {
		t.Fatalf("%d students, want the eighty", len(lines))
	}
	slices.Sort(lines)
	return strings.Join(lines, "\n")
}

// change does one thing to all whom a search finds.
func (e eighty) change(t *testing.T, do, show string) *webtest.Page {
	t.Helper()
	list := e.get(t, "/students?q=pupil&show="+show)
	list.RequireText(t, ".choice.all", "All 80 shown")
	form := list.FormValues(t, "form.students")
	form.Set("all", "yes")
	form.Set("do", do)
	form.Set("into", map[string]string{"add": e.other.String(), "remove": e.class.String()}[do])
	return e.post(t, "/students/change", form).RequireStatus(t, http.StatusOK)
}

// takeBack presses Undo.
func (e eighty) takeBack(t *testing.T, on *webtest.Page) *webtest.Page {
	t.Helper()
	form := ".notice.good form"
	return e.post(t, on.AttributeOf(t, form, "action"), on.FormValues(t, form)).RequireStatus(t, http.StatusOK)
}

// A class of eighty is found by a search, changed together, and each change undone.
func TestStudents_EightyAtOnce(t *testing.T) {
	e := newEighty(t)
	begin := e.state(t)
	for do, says := range map[string]string{
		"left": "40 students break from the left.", "right": "40 students break from the right.", "no side": "80 students: break side not known.", "add": "80 students added to Saturday",
		"remove": "80 students removed from All of the school", "archive": "80 students archived",
	} {
		did := e.change(t, do, "").RequireText(t, ".undoable", says)
		if e.state(t) == begin {
			t.Errorf("%s changed nothing", do)
		}
		e.takeBack(t, did).RequireText(t, ".undoable", "Undone")
		if now := e.state(t); now != begin {
			t.Errorf("%s, undone, leaves\n%s", do, now)
		}
	}
	e.change(t, "archive", "")
	away := e.state(t)
	back := e.change(t, "restore", "archived").RequireText(t, ".undoable", "80 students restored")
	if e.state(t) != begin {
		t.Error("restored they are not as before")
	}
	if e.takeBack(t, back); e.state(t) != away {
		t.Error("the restoring is not undone")
	}
}

// Adding a list by mistake is undone, and the undoing too.
func TestStudents_EightyAddedByMistake(t *testing.T) {
	e := newEighty(t)
	begin := e.state(t)
	gone := e.takeBack(t, e.added).RequireText(t, ".notice.good", "80 students put among the archived").RequireCount(t, ".roster > li", 0)
	if e.takeBack(t, gone); e.state(t) != begin {
		t.Error("they are not there again as before")
	}
}

// The eighty get codes, a drill and a message; the drill is taken off again, and the
// message from whoever has not read it.
func TestStudents_EightyGetCodesADrillAndAMessage(t *testing.T) {
	e := newEighty(t)
	found := url.Values{"q": {"pupil"}, "all": {"yes"}, "drill": {e.Drill.ID.String()}}
	e.get(t, "/students/codes?"+found.Encode()).RequireCount(t, ".card", 80)
	assign := e.get(t, "/students/assign?"+found.Encode()).RequireCount(t, ".ticks input[checked]", 80)
	given := e.post(t, assign.Path, assign.FormValues(t, "main form[method=post]")).RequireText(t, ".answer", "of 80")
	e.takeBack(t, given).RequireText(t, "main", "Ended on")

	var readers []store.Actor
	all, err := e.Store.ListRoster(t.Context(), e.Coach)
	for _, s := range all {
		if len(readers) < 3 && strings.HasPrefix(s.Name, "Pupil-") {
			readers = append(readers, store.Actor{Club: e.Coach.Club, Person: s.ID, Role: store.Student})
		}
	}
	if err != nil || len(readers) != 3 {
		t.Fatalf("%d students (%v)", len(readers), err)
	}
	var sets []store.SetID
	for _, student := range readers {
		// The scene's drill is given to its own class.
		e.ChangeStudents(t, store.RosterChange{Kind: store.AddToClass, Class: e.Class}, student.Person)
		sets = append(sets, e.RecordBreaks(t, student, 2))
	}
	form := e.get(t, "/students?q=pupil").FormValues(t, "form.students")
	form.Set("all", "yes")
	form.Set("body", "Thursday is at seven.")
	sent := e.post(t, "/students/message", form).RequireText(t, ".notice", "Sent to 80 students.")
	if err := e.Store.MarkRead(t.Context(), readers[0], sets[0]); err != nil {
		t.Fatal(err)
	}
	e.takeBack(t, sent).RequireText(t, ".notice", "Taken back from 79 students. 1 student has read it already")
	for i, set := range sets {
		e.get(t, "/sets/"+set.String()).RequireCount(t, ".talk li", map[bool]int{true: 1}[i == 0])
	}
}
