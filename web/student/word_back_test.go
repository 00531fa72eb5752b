package student_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"breakwright/web/webtest"
)

// "It hurts" stands on the coach's desk at once, with the caution on the student's
// page; the student takes it back, and a coach who has noted it sees it no more, unless it is said anew.
func TestWordBack_HurtsGoesToTheDesk(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	set := site.RecordBreaks(t, site.StudentActor(0), 10)
	path := "/my/sets/" + set.String()
	student, coach := site.SignInStudent(t, site.Students[0]), site.SignInCoach(t)
	say := func(word string) *webtest.Page { return student.Post(t, path+"/word", url.Values{"word": {word}}) }

	say("hurts").RequireStatus(t, http.StatusConflict) // while it is open
	site.CloseSet(t, site.StudentActor(0), set, -20)
	if words := student.Get(t, path).FormValues(t, "#word"); words.Has("word") {
		t.Errorf("a word is chosen already: %v", words)
	}
	page := say("hurts").RequireStatus(t, http.StatusOK)
	page.RequireText(t, "#word .care", "stop breaking", "somebody qualified").RequireCount(t, "#word [value=hurts]", 0)
	coach.Get(t, "/desk").RequireText(t, "#hurts-"+set.String(), "Odile", "it hurts", "somebody qualified")
	coach.Get(t, "/sets/"+set.String()).RequireText(t, "main", "Odile said that it hurts")
	story := "/students/" + site.Students[0].ID.String()
	coach.Get(t, story).RequireText(t, ".word-back", "hurts")

	say("").RequireStatus(t, http.StatusOK).RequireCount(t, "#word .notice", 0)
	coach.Get(t, "/desk").RequireCount(t, "#hurts", 0)
	coach.Get(t, story).RequireCount(t, ".word-back", 0)
	say("felt wrong").RequireText(t, "#word .notice", "felt wrong").RequireCount(t, "#word [value=hurts]", 1)
	coach.Get(t, "/desk").RequireCount(t, "#hurts", 0)
	coach.Get(t, "/sets/"+set.String()).RequireText(t, "main", "Odile said that this felt wrong")

	say("hurts")
	noted := coach.Get(t, "/desk").FormValues(t, "#hurts-"+set.String()+" form")
	coach.Post(t, "/desk/seen", noted).RequireStatus(t, http.StatusOK).RequireCount(t, "#hurts", 0)

	say("hurts") // the same word twice, as after a lost answer, is the one that was noted
	coach.Get(t, "/desk").RequireCount(t, "#hurts", 0)
	say("")
	say("hurts") // said anew it is news again, and can be noted again
	coach.Get(t, "/desk").RequireText(t, "#hurts-"+set.String(), "Odile", "it hurts")
	coach.Post(t, "/desk/seen", noted).RequireStatus(t, http.StatusOK).RequireCount(t, "#hurts", 0)

	say("wonderful").RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "main", "10 breaks say")
	site.SignInStudent(t, site.Students[1]).Post(t, path+"/word", url.Values{"word": {"hurts"}}).RequireStatus(t, http.StatusNotFound)
}

// Who said that it hurts is led to no next break: not by the set's page, nor where they
// would begin, until they take it back or have closed a later set.
func TestWordBack_HurtsLeadsToNoNextBreak(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	student := site.SignInStudent(t, site.Students[0])
	set := site.RecordBreaks(t, site.StudentActor(0), 10)
	site.CloseSet(t, site.StudentActor(0), set, -20)
	path := "/my/sets/" + set.String()
	say := func(word string) *webtest.Page { return student.Post(t, path+"/word", url.Values{"word": {word}}) }
	begins := []string{"/today", "/today/" + site.Assignment.String(), "/my/training/set-" + set.String()}
	next := `a[href="/today/` + site.Assignment.String() + `"]`

	student.Get(t, path).RequireCount(t, next, 1)
	page := say("hurts").RequireCount(t, next, 0).RequireText(t, "main", "What these breaks say is for afterwards")
	if caution, advice := strings.Index(page.Text, "You said that it hurts"), strings.Index(page.Text, `id="advice-heading"`); caution < 0 || advice < caution {
		t.Errorf("the caution stands at %d, the advice at %d", caution, advice)
	}
	student.Get(t, "/today").RequireText(t, ".answer", "Stop breaking for now")
	for _, begin := range begins {
		student.Get(t, begin).RequireText(t, "#hurt", "somebody qualified").RequireCount(t, `#hurt a[href="`+path+`#word"]`, 1)
	}
	site.SignInStudent(t, site.Students[1]).Get(t, "/today").RequireCount(t, "#hurt", 0)

	say("")
	for _, begin := range begins {
		student.Get(t, begin).RequireCount(t, "#hurt", 0)
	}
	site.RecordBreaks(t, site.StudentActor(0), 10) // begun before they said so, and still open
	say("hurts")
	student.Get(t, "/today").RequireCount(t, "#hurt", 1)
	site.CloseSet(t, site.StudentActor(0), site.RecordBreaks(t, site.StudentActor(0), 10), -20)
	student.Get(t, "/today").RequireCount(t, "#hurt", 0)
}

// Who said that it hurts begins another set only by saying that it is over: then no page
// asks them to stop any more, and their coach's desk says that they went on.
func TestWordBack_OverIsSaidBeforeTheNextSet(t *testing.T) {
	t.Parallel()
	site := webtest.New(t)
	student, coach := site.SignInStudent(t, site.Students[0]), site.SignInCoach(t)
	set := site.RecordBreaks(t, site.StudentActor(0), 10)
	site.CloseSet(t, site.StudentActor(0), set, -20)
	student.Post(t, "/my/sets/"+set.String()+"/word", url.Values{"word": {"hurts"}})
	for _, begin := range []string{"/my/training/set-" + set.String(), "/today/" + site.Assignment.String()} {
		form := student.Get(t, begin).RequireCount(t, "form[data-start] [name=over][required]", 1).FormValues(t, "form[data-start]")
		student.Post(t, begin, form).RequireStatus(t, http.StatusUnprocessableEntity).
			RequireText(t, "#over-error", "no longer hurts").RequireCount(t, "#hurt", 1)
	}
	line := "#hurts-" + set.String()
	coach.Get(t, "/desk").RequireText(t, line, "before they break again")

	begin := "/today/" + site.Assignment.String()
	form := student.Get(t, begin).FormValues(t, "form[data-start]")
	form.Set("over", "yes")
	student.Post(t, begin, form).RequireStatus(t, http.StatusOK)
	student.Get(t, begin).RequireCount(t, "#hurt", 0).RequireCount(t, "[name=over]", 0)
	coach.Get(t, "/desk").RequireText(t, line, "have begun another set since")
}
