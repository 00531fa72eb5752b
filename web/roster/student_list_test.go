//go:build !quick

package roster_test

import (
	"net/http"
	"net/url"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/browser"
)

// Each filter finds those it names and nobody else; archived students are found
// again, and those in no class stand somewhere.
func TestStudents_AreFound(t *testing.T) {
	s := newSite(t)
	ctx := t.Context()
	s.join(t, 0)
	alone, err := s.Store.AddStudents(ctx, s.Coach, [16]byte{}, store.ClassID{}, []store.NewStudent{{Name: "Zoë van der Meer"}, {Name: "Gone Away"}})
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Store.ArchivePerson(ctx, s.Coach, alone[1].ID); err != nil {
		t.Fatal(err)
	}
	for query, want := range map[string][]string{
		"":                                       {"Bram", "Odile", "Wen", "Zoë van der Meer"},
		"q=odi":                                  {"Odile"},
		"q=MEER zo":                              {"Zoë van der Meer"},
		"q=van+der":                              {"Zoë van der Meer"},
		"q=" + alone[0].Code[:5]:                 {"Zoë van der Meer"},
		"class=none":                             {"Zoë van der Meer"},
		"class=" + s.Class.String():              {"Bram", "Odile", "Wen"},
		"show=archived":                          {"Gone Away"},
		"show=archived&q=gone":                   {"Gone Away"},
		"show=not+joined&class=none":             {"Zoë van der Meer"},
		"show=silent":                            nil,
		"q=nobody":                               nil,
		"q=odi&students=" + alone[0].ID.String(): {"Zoë van der Meer", "Odile"}, // who is ticked stays in sight
	} {
		got := s.get(t, "/students?"+strings.ReplaceAll(query, " ", "%20"))
		var names []string
		for _, node := range got.FindAll(t, ".everyone .name") {
			names = append(names, node.FirstChild.Data)
		}
		if !slices.Equal(names, want) {
			t.Errorf("%q finds %q, want %q", query, names, want)
		}
	}
	empty := s.get(t, "/students?q=gone").RequireText(t, ".answer", "Nobody is found so.")
	s.get(t, empty.AttributeOf(t, "#found a", "href")).RequireText(t, ".answer", "1 archived student.").RequireText(t, ".everyone .name", "Gone Away")
	s.get(t, "/students?show=archived&q=nobody").RequireCount(t, "#found a", 0)
	if joined := s.get(t, "/students?show=not+joined"); joined.TextOf(t, ".everyone") == "" || strings.Contains(joined.TextOf(t, ".everyone"), "Odile") {
		t.Error("who joined is among those who have not")
	}
}

// A change to many says what it did, can be undone from the page it leads to,
// and leaves the list as it was looked at.
func TestStudents_AreChangedTogether(t *testing.T) {
	s := newSite(t)
	form := s.get(t, "/students?q=bram").FormValues(t, "form.students")
	form.Set("do", "right")
	form.Set("all", "yes")
	got := s.post(t, "/students/change", form).RequireStatus(t, http.StatusOK)
	got.RequireText(t, ".undoable", "1 student breaks from the right.").RequireCount(t, ".everyone > li", 1)
	at := slices.IndexFunc(s.Students, func(p store.Person) bool { return p.Name == "Bram" })
	before := s.Students[at].Side
	if side := s.side(t, at); side != table.Right {
		t.Fatalf("side %q", side)
	}
	undo := got.AttributeOf(t, ".undoable form", "action")
	for range 2 {
		s.post(t, undo, got.FormValues(t, ".undoable form")).RequireStatus(t, http.StatusOK).
			RequireText(t, ".undoable", "Undone").RequireCount(t, ".undoable button", 0).RequireCount(t, ".everyone > li", 1)
	}
	if side := s.side(t, at); side != before {
		t.Errorf("side %q after undoing, %q before", side, before)
	}
}

func TestStudents_SayWhatIsMissing(t *testing.T) {
	s := newSite(t)
	none := s.get(t, "/students").FormValues(t, "form.students")
	none.Set("do", "left")
	s.post(t, "/students/change", none).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "#students-error", "Tick the students")
	odile := url.Values{"students": {s.Students[0].ID.String()}, "do": {"add"}}
	s.post(t, "/students/change", odile).RequireStatus(t, http.StatusUnprocessableEntity).
		RequireText(t, "#into-error", "Choose the class").RequireCount(t, ".everyone input[checked]", 1)
	odile.Set("do", "explode")
	s.post(t, "/students/change", odile).RequireStatus(t, http.StatusNotFound)
	s.coach.Get(t, "/students/codes").RequireStatus(t, http.StatusUnprocessableEntity)
	s.coach.Get(t, "/students/assign?students="+s.Students[0].ID.String()).RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "#drill-error", "Choose the drill")
}

func TestStudents_LeadToCodesAndDrills(t *testing.T) {
	s := newSite(t)
	one := "students=" + s.Students[0].ID.String()
	s.get(t, "/students/codes?"+one).RequireCount(t, ".card", 1).RequireText(t, ".card-name", s.Students[0].Name)
	s.get(t, "/students/assign?"+one+"&drill="+s.Drill.ID.String()).RequireCount(t, ".ticks input[checked]", 1)
}

// A message goes to each who is ticked, once: beside the latest set, or on the first page of
// who has none yet, where it stands until it was read. An empty one is refused with the ticks
// kept, and so is one to nobody.
func TestStudents_AreWrittenTo(t *testing.T) {
	s := newSite(t)
	odile := s.Scene.StudentActor(0)
	set := s.RecordBreaks(t, odile, 4)
	s.CloseSet(t, odile, set, s.Drill.Setup.Cue.X+2)
	form := s.get(t, "/students").FormValues(t, "form.students")
	form["students"] = []string{s.Students[0].ID.String(), s.Students[1].ID.String()}
	s.post(t, "/students/message", form).RequireStatus(t, http.StatusUnprocessableEntity).
		RequireText(t, "#body-error", "1 to 2000").RequireCount(t, "input[name=students][checked]", 2)
	form.Set("body", "Thursday is at seven.")
	s.ChangeStudents(t, store.RosterChange{Kind: store.ArchiveMany}, s.Students[2].ID)
	none := url.Values{"students": {s.Students[2].ID.String()}, "body": {"Thursday is at seven."}}
	s.post(t, "/students/message", none).RequireStatus(t, http.StatusUnprocessableEntity).
		RequireText(t, "#body-error", "Sent to nobody").RequireText(t, "#body", "Thursday is at seven.")
	for range 2 {
		s.post(t, "/students/message", form).RequireStatus(t, http.StatusOK).
			RequireText(t, ".notice", "Sent to 2 students.")
	}
	pierre := s.Site.SignInStudent(t, s.Students[1])
	today := pierre.Get(t, "/today").RequireText(t, ".news", "Thursday is at seven.")
	s.get(t, s.student(1)).RequireText(t, ".talk", "Thursday is at seven.").RequireCount(t, ".talk a", 0)
	s.get(t, "/decided").RequireText(t, "main", "Thursday is at seven.").RequireCount(t, "form[action='"+s.student(1)+"/message']", 1)
	pierre.Post(t, today.AttributeOf(t, ".news form", "action"), nil).RequireStatus(t, http.StatusOK).RequireCount(t, ".news", 0)
	pierre.Get(t, "/my/progress").RequireText(t, ".talk", "Thursday is at seven.")
	s.get(t, "/sets/"+set.String()).RequireCount(t, ".talk li", 1).RequireText(t, ".talk", "Thursday is at seven.")
	own := s.get(t, s.student(0)).FormValues(t, "form[action='"+s.student(0)+"/message']")
	own.Set("body", "And bring the heavy cue.")
	s.post(t, s.student(0)+"/message", own).RequireStatus(t, http.StatusOK).RequireText(t, ".notice", "Sent to 1 student")
	s.get(t, "/sets/"+set.String()).RequireCount(t, ".talk li", 2)
}

// A note is kept with its letters and shown to its coach alone.
func TestNoteIsKept(t *testing.T) {
	s := newSite(t)
	s.post(t, s.student(0)+"/note", fields("note", "Sore wrist <b>")).RequireStatus(t, http.StatusOK).RequireText(t, ".notice.good", "Note saved")
	s.get(t, s.student(0)).RequireText(t, "#note", "Sore wrist <b>")
	s.get(t, s.student(1)).RequireCount(t, "#note:empty", 1)
	long := strings.Repeat("x", store.MaxNote+1)
	s.post(t, s.student(0)+"/note", fields("note", long)).RequireStatus(t, http.StatusUnprocessableEntity).
		RequireText(t, "#note-error", "4001 letters").RequireText(t, "#note", long)
}

// Typing narrows the list while what is ticked stays, and the archived student is
// found and restored: five clicks and one field from any page. A class of eighty is
// found, chosen, changed and changed back.
func TestStudents_FindAndRestoreInTheBrowser(t *testing.T) {
	e := newEighty(t)
	s, begin := e.site, e.state(t)
	if err := s.Store.ArchivePerson(t.Context(), s.Coach, s.Students[0].ID); err != nil {
		t.Fatal(err)
	}
	w := browser.OpenWindow(t, browser.Laptop)
	w.SignIn(s.URL, s.Login, storetest.Passphrase)
	w.Navigate(s.URL + "/students")
	w.TypeInto("q", "bra")
	w.WaitFor("document.querySelectorAll('.everyone > li').length == 1 && document.querySelector('.answer').textContent == '1 of 82 students.'")
	w.RunActions(chromedp.Click(chromedp.CSS(".everyone input")))
	w.TypeInto("q", "we")
	w.WaitFor("document.querySelectorAll('.everyone > li').length == 2 && document.querySelectorAll('.everyone input:checked').length == 1")
	w.Navigate(s.URL + "/students?q=pupil")
	w.ClickText("All 80 shown")
	w.WaitForNavigation(func() { w.ClickText("Left") })
	w.WaitFor("document.querySelector('.undoable')?.textContent.includes('40 students')")
	w.CheckAccessibility(t)
	w.SaveScreenshot("students-eighty")
	w.WaitForNavigation(func() { w.ClickText("Undo") })
	if now := e.state(t); now != begin {
		t.Errorf("undone, there are\n%s", now)
	}
	w.Navigate(s.URL + "/students?show=archived")
	w.RunActions(chromedp.Click(chromedp.CSS(".everyone input")))
	w.ClickText("Restore")
	w.WaitFor("document.querySelector('.undoable')")
	if person, err := s.Store.GetPerson(t.Context(), s.Coach, s.Students[0].ID); err != nil || person.Archived {
		t.Errorf("still archived (%v)", err)
	}
}
