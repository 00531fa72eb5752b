package coach_test

import (
	"net/http"
	"testing"

	"breakwright/web/webtest"
)

// A drill that was ended stands among what was decided, and is assigned again from there
// and from its own page.
func TestDecided_EndedDrillsAreAssignedAgain(t *testing.T) {
	site := webtest.New(t)
	coach, student := site.SignInCoach(t), site.SignInStudent(t, site.Students[0])
	path := "/assignments/" + site.Assignment.String()
	onToday := "main a.button[href='/today/" + site.Assignment.String() + "']"
	student.Get(t, "/today").RequireCount(t, onToday, 1)
	coach.Get(t, "/decided").RequireText(t, ".answer", "Nothing was decided").RequireCount(t, ".rows", 0)
	for _, from := range []string{"/decided", path} {
		coach.Post(t, path+"/end", nil).RequireText(t, "[role=status]", "Ended.")
		student.Get(t, "/today").RequireCount(t, onToday, 0)
		coach.Get(t, "/decided").RequireText(t, ".answer", "No change was decided on").
			RequireText(t, ".rows li", site.Drill.Name, "For Thursday evening. It is off the students’ pages.")
		again := coach.Get(t, from)
		coach.Post(t, again.AttributeOf(t, "main form[action$='/resume']", "action"), nil).RequireStatus(t, http.StatusOK)
		student.Get(t, "/today").RequireCount(t, onToday, 1)
		coach.Get(t, "/decided").RequireCount(t, ".rows", 0)
	}
}
