package student_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"breakwright/internal/library"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/internal/table"
	"breakwright/web/webtest"
)

// A lesson, an earlier setup and a break card can each be trained with plain forms,
// the right way round, without an assignment.
func TestTraining_OfALessonASetupAndACard(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	odile := site.StudentActor(0)
	set := site.RecordBreaks(t, odile, 10)
	site.CloseSet(t, odile, set, -20)
	card := store.NewID[store.CardID]()
	if err := site.Store.IssueCard(t.Context(), site.Coach, card, set); err != nil {
		t.Fatal(err)
	}
	student := site.SignInStudent(t, site.Students[0])
	list := student.Get(t, "/today").RequireStatus(t, http.StatusOK).AttributeOf(t, "a[href='/my/training']", "href")
	lesson := library.AllLessons()[0]
	student.Get(t, list).RequireText(t, "main", "head string; 18 mph; on "+site.Table.Label())
	again := site.RecordBreaks(t, odile, 10)
	if main := student.Get(t, list).Text; strings.Count(main, "18 mph; on") != 1 {
		t.Errorf("one setup on one table is offered more than once: %s", main)
	}
	site.CloseSet(t, odile, again, -20)
	set = again
	for path, name := range map[string]string{
		"/my/training/lesson-" + lesson.Key: lesson.Name, "/my/training/set-" + set.String(): site.Drill.Name,
		"/my/training/card-" + card.String(): "Your break for " + site.Table.Label(),
	} {
		student.Get(t, list).RequireText(t, "main a[href='"+path+"']", name)
		form := student.Get(t, path).RequireStatus(t, http.StatusOK).FormValues(t, "form[data-start]")
		begun := student.Post(t, path, form).RequireStatus(t, http.StatusOK)
		id, err := store.ParseID[store.SetID](form.Get("set_id"))
		if err != nil {
			t.Fatal(err)
		}
		got, err := site.Store.GetSet(t.Context(), site.Coach, id)
		if err != nil || got.Training != name || !store.IsZero(got.Assignment) || got.Planned != 10 || got.Setup.Side != table.Left {
			t.Errorf("%s began %+v at %s (%v)", path, got, begun.Path, err)
		}
		site.SignInCoach(t).Get(t, "/sets/"+id.String()).RequireText(t, ".trail", "training of their own: "+name)
	}
	student.Get(t, "/today").RequireText(t, "main", lesson.Name+": 0 of 10 breaks recorded")
	if main := student.Get(t, list).Text; strings.Contains(main, "new to you") {
		t.Errorf("every table of the club is of the kind broken on, and yet: %s", main)
	}
	small, err := site.Store.SaveTable(t.Context(), site.Coach, store.Table{Name: "Bar box", Kind: table.SevenFoot()})
	if err != nil {
		t.Fatal(err)
	}
	path := "/my/training/begin-" + small.ID.String()
	student.Get(t, list).RequireText(t, "main a[href='"+path+"']", "Where to begin on Bar box")
	page := student.Get(t, path)
	page.RequireText(t, "main", "Start from the best setup on "+site.Table.Label()+", the wing ball in")
	page.RequireText(t, "main", "about 1½ diamonds from the middle, 18 in there and 14 in here")
	form := page.FormValues(t, "form[data-start]")
	student.Post(t, path, form).RequireStatus(t, http.StatusOK)
	id, _ := store.ParseID[store.SetID](form.Get("set_id"))
	if set, err := site.Store.GetSet(t.Context(), site.Coach, id); err != nil || set.Table.ID != small.ID || set.Setup.Cue.X != -14.04 {
		t.Errorf("began %+v: %v", set, err)
	}
	for of, want := range map[string]store.TableID{"lesson-" + lesson.Key: small.ID, "set-" + set.String(): site.Table.ID, "card-" + card.String(): site.Table.ID} {
		if on := student.Get(t, "/my/training/"+of).FormValues(t, "form[data-start]").Get("table"); on != want.String() {
			t.Errorf("%s opens on %s, not on %s", of, on, want)
		}
	}
	for _, path := range []string{"/my/training/lesson-none", "/my/training/begin-x", "/my/training/set-x", "/my/training/card-" + set.String(), "/my/training/x"} {
		student.Get(t, path).RequireStatus(t, http.StatusNotFound)
	}
	other := site.SignInStudent(t, site.Students[1])
	other.Get(t, "/my/training/set-"+set.String()).RequireStatus(t, http.StatusNotFound)
	other.Post(t, "/my/training/card-"+card.String(), url.Values{}).RequireStatus(t, http.StatusNotFound)
}

// Where a drill has the cue ball elsewhere than the student's own breaks would have it
// on a kind of table that is new to them, both sides read so; where it does not,
// nobody does.
func TestDrill_OnANewKindOfTableSaysWhereOwnBreaksBegin(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	odile := site.StudentActor(0)
	for range 2 {
		site.CloseSet(t, odile, site.RecordBreaks(t, odile, 10), -18)
	}
	small, err := site.Store.SaveTable(t.Context(), site.Coach, store.Table{Name: "Bar box", Kind: table.SevenFoot()})
	if err != nil {
		t.Fatal(err)
	}
	narrow := storetest.StandardDrill()
	narrow.Name, narrow.Setup, narrow.Kind, narrow.Window = "Nearer", narrow.Setup.CarryToKind(narrow.Kind, small.Kind), small.Kind, small.Kind.StandardWindow()
	narrow.Setup.Cue.X = -6
	saved, err := site.Store.SaveDrill(t.Context(), site.Coach, store.DrillID{}, narrow)
	if err != nil {
		t.Fatal(err)
	}
	given, err := site.Store.AssignDrill(t.Context(), site.Coach, store.Assignment{Drill: saved.ID, Students: []store.PersonID{odile.Person}})
	if err != nil {
		t.Fatal(err)
	}
	student, coach := site.SignInStudent(t, site.Students[0]), site.SignInCoach(t)
	const own = "about 1½ diamonds from the middle, 18 in there and 14 in here"
	page := student.Get(t, "/today/"+given.String()+"?table="+small.ID.String())
	page.RequireText(t, "#begin", "by your own breaks you would begin elsewhere", own).
		RequireCount(t, "#begin a[href='/my/training/begin-"+small.ID.String()+"']", 1)
	carried := student.Get(t, "/today/"+site.Assignment.String()+"?table="+small.ID.String())
	carried.RequireText(t, "#carried", "Your coach wrote the drill for 9 ft: its places are carried to 7 ft in proportion.")
	for what, page := range map[string]*webtest.Page{"its own size": page, "the drill's": student.Get(t, "/today/"+site.Assignment.String())} {
		if len(page.FindAll(t, "#carried")) > 0 {
			t.Errorf("on a table of %s its places are said to be carried", what)
		}
	}
	assign := "/drills/" + saved.ID.String() + "/assign?students="
	coach.Get(t, assign+odile.Person.String()).RequireText(t, "#beginnings", site.Students[0].Name, own, "(6 in) left of the middle")
	for what, page := range map[string]*webtest.Page{
		"a table that is known":  student.Get(t, "/today/"+given.String()+"?table="+site.Table.ID.String()),
		"the same place carried": student.Get(t, "/today/"+site.Assignment.String()+"?table="+small.ID.String()),
		"no history":             coach.Get(t, assign+site.Students[1].ID.String()),
		"nobody ticked":          coach.Get(t, "/drills/"+saved.ID.String()+"/assign"),
		"a drill of that size":   coach.Get(t, "/drills/"+site.Drill.ID.String()+"/assign?students="+odile.Person.String()),
	} {
		if text := page.RequireStatus(t, http.StatusOK).TextOf(t, "main"); strings.Contains(text, "begin elsewhere") {
			t.Errorf("%s: %s", what, text)
		}
	}
}
