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
	s.get(t, "/classes").Has(t, ".answer", "No class yet", "paste the names").Count(t, "form[action='/classes'] input[name=name]", 1)
	s.get(t, "/tables").Has(t, ".answer", "No table yet").Count(t, "form[action='/tables']", 1)
	class := s.post(t, "/classes", made("name", "Friday")).Status(t, http.StatusOK)
	class.Has(t, ".notice.good", "Class made").Has(t, "h1", "Friday").Has(t, ".answer", "No students yet").Count(t, "textarea[name=names]", 1)
	s.get(t, class.Path+"/codes").Has(t, ".answer", "add students first").Count(t, ".card", 0)
}

func TestClassNames(t *testing.T) {
	s := newSite(t)
	for name, refused := range map[string]string{
		"Z":                         "",
		strings.Repeat("ü", 120):    "",
		"🎱 beginners 🧑‍🎓":           "",
		"<script>alert(1)</script>": "",
		"":                          "give it a name",
		" \t ":                      "give it a name",
		strings.Repeat("x", 200):    "that name has 200 letters; 120 is the most",
	} {
		got := s.post(t, "/classes", made("name", name))
		if refused == "" {
			got.Status(t, http.StatusOK).Has(t, "h1", name).Count(t, "main script", 0)
			s.get(t, "/classes").Has(t, ".rows .name", name).Count(t, "main script", 0)
			continue
		}
		got.Status(t, http.StatusUnprocessableEntity).Has(t, "#name-error", refused)
		if kept := got.Attr(t, "#name", "value"); kept != name {
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
	form := s.get(t, "/classes").Form(t, "form[action='/classes']")
	form.Set("name", "Monday")
	first := s.post(t, "/classes", form).Status(t, http.StatusOK)
	if second := s.post(t, "/classes", form).Status(t, http.StatusOK); second.Path != first.Path {
		t.Errorf("a double click made %s and %s", first.Path, second.Path)
	}
	s.post(t, first.Path+"/name", fields("name", "Monday late")).Status(t, http.StatusOK)
	s.post(t, "/classes", form).Has(t, "h1", "Monday late")
	form.Set("name", "Tuesday") // the form called back, and another name typed
	s.post(t, "/classes", form).Has(t, "h1", "Tuesday")
	if got := s.classes(t); !slices.Equal(got, []string{"Monday late", "Thursday evening", "Tuesday"}) {
		t.Error(got)
	}
}

func TestClassShowsStudentsAndWork(t *testing.T) {
	s := newSite(t)
	s.join(t, 0)
	set := s.RecordBreaks(t, s.Scene.StudentActor(0), 3)
	s.CloseSet(t, s.Scene.StudentActor(0), set, s.Drill.Setup.Cue.X)
	class := s.get(t, s.class()).Has(t, ".answer", "3 students, 2 not joined yet.")
	class.Count(t, ".roster > li", 3)
	class.Has(t, ".roster", "Odile", "joined", s.Students[1].Code[:4]+"-"+s.Students[1].Code[4:])
	if strings.Contains(class.Text, s.Students[0].Code) {
		t.Error("the code of a student who joined is in the class's list")
	}
	class.Has(t, "section[aria-labelledby=assigned]", "Find the wing ball", "no due day", "1 of 3 done")
	class.Count(t, "a[href='/assignments/"+s.Assignment.String()+"']", 1).Count(t, "main a[href='/drills']", 1)
	s.get(t, "/classes").Has(t, ".rows", "Thursday evening 3 students")
}

func TestClassIsRenamed(t *testing.T) {
	s := newSite(t)
	s.post(t, s.class()+"/name", fields("name", " Thursday late ")).Status(t, http.StatusOK).Has(t, "h1", "Thursday late")
	bad := s.post(t, s.class()+"/name", fields("name", strings.Repeat("x", 200))).Status(t, http.StatusUnprocessableEntity)
	bad.Has(t, "details[open] #name-error", "120 is the most").Has(t, "[role=alert]", "120 is the most").Has(t, "h1", "Thursday late")
}

func TestClassIsArchived(t *testing.T) {
	s := newSite(t)
	s.get(t, s.class()+"/archive").Has(t, "h1", "Archive Thursday evening?").Has(t, "main", "3 students stay", "take it back")
	for range 2 {
		s.post(t, s.class()+"/archive", nil).Status(t, http.StatusOK).Has(t, ".notice.good", "archived").Has(t, "details", "Thursday evening")
	}
	s.get(t, s.class()).Has(t, ".notice.care", "archived").Count(t, "textarea", 0).Count(t, "main a[href='/drills']", 0)
	s.post(t, s.class()+"/students", made("names", "Late")).Status(t, http.StatusConflict)
	if got := s.names(t); slices.Contains(got, "Late") {
		t.Error(got)
	}
	for range 2 {
		s.post(t, s.class()+"/restore", nil).Status(t, http.StatusOK).Has(t, ".notice.good", "Thursday evening is back").
			Count(t, ".notice.care", 0).Count(t, "textarea", 1)
	}
}
