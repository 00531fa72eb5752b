package coach_test

import (
	"net/http"
	"net/url"
	"testing"

	"breakwright/internal/store"
	"breakwright/web/webtest"
)

// A drill that was ended stands among what was done, and is assigned again from there
// and from its own page.
func TestDecided_EndedDrillsAreAssignedAgain(t *testing.T) {
	site := webtest.New(t)
	coach, student := site.SignInCoach(t), site.SignInStudent(t, site.Students[0])
	path := "/assignments/" + site.Assignment.String()
	onToday := "main a.button[href='/today/" + site.Assignment.String() + "']"
	resume := "main form[action='" + path + "/resume']"
	student.Get(t, "/today").RequireCount(t, onToday, 1)
	coach.Get(t, "/decided").RequireText(t, ".answer", "No change was decided on").RequireCount(t, resume, 0)
	for _, from := range []string{"/decided", path} {
		coach.Post(t, path+"/end", nil).RequireText(t, "[role=status]", "Ended.")
		student.Get(t, "/today").RequireCount(t, onToday, 0)
		coach.Get(t, "/decided").RequireText(t, ".rows li:has(form[action$='/resume'])", site.Drill.Name, "Ended for Thursday evening. It is off the students’ pages.")
		again := coach.Get(t, from)
		coach.Post(t, again.AttributeOf(t, resume, "action"), nil).RequireStatus(t, http.StatusOK)
		student.Get(t, "/today").RequireCount(t, onToday, 1)
		coach.Get(t, "/decided").RequireCount(t, resume, 0)
	}
}

// Whatever is done on the desk and in a class beside deciding on a change stands on the
// list, with whom it is about, and is taken back from there; then it stands there no more.
func TestDecided_EveryActionIsTakenBackFromTheList(t *testing.T) {
	site := webtest.New(t)
	coach, odile := site.SignInCoach(t), site.Students[0].ID.String()
	set := site.RecordBreaks(t, site.StudentActor(0), 10)
	site.CloseSet(t, site.StudentActor(0), set, -18)
	sunday, err := site.Store.SaveClass(t.Context(), site.Coach, store.Class{Name: "Sunday"})
	if err != nil {
		t.Fatal(err)
	}
	student, class := "/students/"+odile, "/classes/"+site.Class.String()
	many := func(do, into string) url.Values {
		return url.Values{"do": {do}, "into": {into}, "students": {odile, site.Students[1].ID.String()}}
	}
	drillPath := "/drills/" + site.Drill.ID.String() + "/assign"
	for _, did := range []struct {
		path, who, says string
		form            url.Values
	}{
		{"/desk/seen", "Odile", "“Balls off the table” was noted", url.Values{"student": {odile}, "reason": {"off the table"}, "about": {set.String()}}},
		{"/desk/seen", "Bram and Odile", "“Past the due day” was noted",
			url.Values{"student": {odile, site.Students[1].ID.String()}, "reason": {"idle"}, "about": {site.Assignment.String()}}},
		{"/sets/" + set.String() + "/messages", "Odile", "“Keep the tip low.”", url.Values{"message_id": {store.NewID[store.MessageID]().String()}, "body": {"Keep the tip low."}}},
		{student + "/cards", "Odile", "The break card for North 2", url.Values{"card": {store.NewID[store.CardID]().String()}, "set": {set.String()}}},
		{student + "/classes", "Odile", "1 student removed from Thursday evening.", url.Values{"leave": {site.Class.String()}}},
		{student + "/classes", "Odile", "1 student added to Sunday.", url.Values{"enter": {sunday.String()}}},
		{student + "/side", "Odile", "1 student breaks from the right.", url.Values{"side": {"right"}, "class": {site.Class.String()}}},
		{student + "/archive", "Odile", "1 student archived", nil},
		{"/students/change", "Bram and Odile", "2 students removed from Thursday evening.", many("remove", site.Class.String())},
		{"/students/change", "Bram and Odile", "2 students added to Sunday.", many("add", sunday.String())},
		{"/students/change", "Bram and Odile", "2 students archived", many("archive", "")},
		{class + "/archive", "Thursday evening", "The class was archived.", nil},
		{drillPath, site.Drill.Name, "Assigned to Sunday.", url.Values{"class": {sunday.String()}}},
	} {
		coach.Post(t, did.path, did.form).RequireStatus(t, http.StatusOK)
		line := "main .rows li:contains('" + did.who + "'):contains('" + did.says + "')"
		listed := coach.Get(t, "/decided").RequireCount(t, line, 1).RequireText(t, line+" strong", did.who)
		coach.Post(t, listed.AttributeOf(t, line+" form", "action"), listed.FormValues(t, line+" form")).RequireStatus(t, http.StatusOK)
		coach.Get(t, "/decided").RequireCount(t, line, 0).RequireCount(t, "main .rows li:contains('Undone')", 0)
	}
	added := "main .rows li:contains('3 students added.')"
	listed := coach.Get(t, "/decided").RequireCount(t, added, 1)
	coach.Post(t, listed.AttributeOf(t, added+" form", "action"), listed.FormValues(t, added+" form")).RequireText(t, ".notice.good", "3 students archived")
	coach.Get(t, "/decided").RequireCount(t, added, 0).RequireText(t, "main .rows", "3 students archived")
}
