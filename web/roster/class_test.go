package roster_test

import (
	"net/http"
	"slices"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
)

func TestEmptyClubOffersTheFirstSteps(t *testing.T) {
	scene := storetest.Scene{Store: storetest.New(t)}
	scene.Coach, scene.Login = storetest.NewClub(t, scene.Store)
	s := serve(t, scene)
	s.get(t, "/students").RequireText(t, ".answer", "No students yet. Make a class").RequireCount(t, "main form", 0)
	s.get(t, "/classes").RequireText(t, ".answer", "No class yet", "paste the names").RequireCount(t, "form[action='/classes'] input[name=name]", 1)
	s.get(t, "/tables").RequireText(t, ".answer", "No table yet").RequireCount(t, "form[action='/tables']", 1)
	class := s.post(t, "/classes", made("name", "Friday")).RequireStatus(t, http.StatusOK)
	class.RequireText(t, ".notice.good", "Class made").RequireText(t, "h1", "Friday").RequireText(t, ".answer", "No students yet").RequireCount(t, "textarea[name=names]", 1)
	s.get(t, class.Path+"/codes").RequireText(t, ".answer", "add students first").RequireCount(t, ".card", 0)
}

func TestClassNames(t *testing.T) {
	s := newSite(t)
	for name, refused := range map[string]string{
		"Z":                         "",
		strings.Repeat("ü", 120):    "",
		"🎱 beginners 🧑‍🎓":           "",
		"<script>alert(1)</script>": "",
		"":                          "Give it a name",
		" \t ":                      "Give it a name",
		strings.Repeat("x", 200):    "That name has 200 letters; 120 is the most",
	} {
		got := s.post(t, "/classes", made("name", name))
		if refused == "" {
			got.RequireStatus(t, http.StatusOK).RequireText(t, "h1", name).RequireCount(t, "main script", 0)
			s.get(t, "/classes").RequireText(t, ".rows .name", name).RequireCount(t, "main script", 0)
			continue
		}
		got.RequireStatus(t, http.StatusUnprocessableEntity).RequireText(t, "#name-error", refused)
		if kept := got.AttributeOf(t, "#name", "value"); kept != name {
			t.Errorf("%q came back as %q", name, kept)
		}
	}
}

// classes are the names of the club's classes.
func (s *site) classes(t *testing.T) []string {
	t.Helper()
	all, err := s.Store.ListClasses(t.Context(), s.Coach, store.WithArchived)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, c := range all {
		names = append(names, c.Name)
	}
	return names
}

func TestAClassIsMadeOnceAForm(t *testing.T) {
	s := newSite(t)
	form := s.get(t, "/classes").FormValues(t, "form[action='/classes']")
	form.Set("name", "Monday")
	first := s.post(t, "/classes", form).RequireStatus(t, http.StatusOK)
	if second := s.post(t, "/classes", form).RequireStatus(t, http.StatusOK); second.Path != first.Path {
		t.Errorf("a double click made %s and %s", first.Path, second.Path)
	}
	s.post(t, first.Path+"/name", fields("name", "Monday late")).RequireStatus(t, http.StatusOK)
	s.post(t, "/classes", form).RequireText(t, "h1", "Monday late")
	form.Set("name", "Tuesday") // the form called back, and another name typed
	s.post(t, "/classes", form).RequireText(t, "h1", "Tuesday")
	if got := s.classes(t); !slices.Equal(got, []string{"Monday late", "Thursday evening", "Tuesday"}) {
		t.Error(got)
	}
}

func TestClassShowsStudentsAndWork(t *testing.T) {
	s := newSite(t)
	s.join(t, 0)
	set := s.RecordBreaks(t, s.Scene.StudentActor(0), 3)
	s.CloseSet(t, s.Scene.StudentActor(0), set, s.Drill.Setup.Cue.X)
	class := s.get(t, s.class()).RequireText(t, ".answer", "3 students, 2 not joined yet.")
	class.RequireCount(t, ".roster > li", 3)
	class.RequireText(t, ".roster", "Odile", "joined", s.Students[1].Code[:4]+"-"+s.Students[1].Code[4:])
	if strings.Contains(class.Text, s.Students[0].Code) {
		t.Error("the code of a student who joined is in the class's list")
	}
	class.RequireText(t, "section[aria-labelledby=assigned]", "Find the wing ball", "no due day", "1 of 3 done")
	class.RequireCount(t, "a[href='/assignments/"+s.Assignment.String()+"']", 1).RequireCount(t, "main a[href='/drills']", 1)
	s.get(t, "/classes").RequireText(t, ".rows", "Thursday evening 3 students")
}

func TestClassIsRenamed(t *testing.T) {
	s := newSite(t)
	s.post(t, s.class()+"/name", fields("name", " Thursday late ")).RequireStatus(t, http.StatusOK).RequireText(t, "h1", "Thursday late")
	undo := s.post(t, s.class()+"/name", fields("name", "Friday"))
	s.post(t, undo.AttributeOf(t, ".notice.good form", "action"), undo.FormValues(t, ".notice.good form")).RequireText(t, "h1", "Thursday late")
	bad := s.post(t, s.class()+"/name", fields("name", strings.Repeat("x", 200))).RequireStatus(t, http.StatusUnprocessableEntity)
	bad.RequireText(t, "details[open] #name-error", "120 is the most").RequireText(t, "[role=alert]", "120 is the most").RequireText(t, "h1", "Thursday late")
}

func TestClassIsArchived(t *testing.T) {
	s := newSite(t)
	s.get(t, s.class()+"/archive").RequireText(t, "h1", "Archive Thursday evening?").RequireText(t, "main", "3 students stay", "restore it")
	for range 2 {
		s.post(t, s.class()+"/archive", nil).RequireStatus(t, http.StatusOK).RequireText(t, ".notice.good", "archived").RequireText(t, "details", "Thursday evening")
	}
	s.post(t, s.post(t, s.class()+"/archive", nil).AttributeOf(t, ".notice.good form", "action"), nil).RequireText(t, ".notice.good", "is back")
	s.post(t, s.class()+"/archive", nil)
	s.get(t, s.class()).RequireText(t, ".notice.care", "archived").RequireCount(t, "textarea", 0).RequireCount(t, "main a[href='/drills']", 0)
	s.post(t, s.class()+"/students", made("names", "Late")).RequireStatus(t, http.StatusConflict)
	if got := s.names(t); slices.Contains(got, "Late") {
		t.Error(got)
	}
	for range 2 {
		s.post(t, s.class()+"/restore", nil).RequireStatus(t, http.StatusOK).RequireText(t, ".notice.good", "Thursday evening is back").
			RequireCount(t, ".notice.care", 0).RequireCount(t, "textarea", 1)
	}
}
