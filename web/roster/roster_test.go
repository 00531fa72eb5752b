package roster_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/google/uuid"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/roster"
	"breakwright/web/route"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// site is the whole site with the scene's coach signed in.
type site struct {
	*webtest.Site
	coach *webtest.Client
}

func newSite(t *testing.T) *site {
	t.Helper()
	return serve(t, storetest.NewScene(t))
}

func serve(t *testing.T, scene storetest.Scene) *site {
	t.Helper()
	s := webtest.NewOverScene(t, scene)
	return &site{Site: s, coach: s.SignInCoach(t)}
}

// get opens a page that must be there.
func (s *site) get(t *testing.T, path string) *webtest.Page {
	t.Helper()
	return s.coach.Get(t, path).RequireStatus(t, http.StatusOK)
}

// post sends a form and follows where it leads.
func (s *site) post(t *testing.T, path string, form url.Values) *webtest.Page {
	t.Helper()
	return s.coach.Post(t, path, form)
}

// rows are the roster's rows of the route table.
func rows() []route.Route { return roster.New(nil, nil, "", nil).Routes() }

// fields makes a form of names and values in turn.
func fields(pairs ...string) url.Values {
	form := url.Values{}
	for i := 0; i+1 < len(pairs); i += 2 {
		form.Set(pairs[i], pairs[i+1])
	}
	return form
}

// made is a form with an id of its own, as a page makes it.
func made(pairs ...string) url.Values { return fields(append(pairs, "form_id", uuid.NewString())...) }

// The addresses of the scene's things.
func (s *site) class() string        { return "/classes/" + s.Class.String() }
func (s *site) student(i int) string { return "/students/" + s.Students[i].ID.String() }
func (s *site) table() string        { return "/tables/" + s.Table.ID.String() }

// names are those of the class's students, as the store has them.
func (s *site) names(t *testing.T) []string {
	t.Helper()
	var names []string
	for _, m := range s.members(t) {
		names = append(names, m.Name)
	}
	return names
}

func (s *site) members(t *testing.T) []store.Person {
	t.Helper()
	_, members, err := s.Store.GetClass(t.Context(), s.Coach, s.Class)
	if err != nil {
		t.Fatal(err)
	}
	return members
}

// join lets the scene's i-th student choose a PIN.
func (s *site) join(t *testing.T, i int) {
	t.Helper()
	// The store looks at the form of a hash alone.
	const hash = "$argon2id$v=19$m=64,t=1,p=1$c2FsdHNhbHQ$aGFzaGhhc2g"
	if err := s.Store.JoinClub(t.Context(), s.Scene.StudentActor(i), hash, s.Students[i].Side); err != nil {
		t.Fatal(err)
	}
}

func TestOnlyCoachesMayCallTheRoster(t *testing.T) {
	if n := len(rows()); n < 20 {
		t.Fatalf("%d routes", n)
	}
	for _, row := range rows() {
		if row.Audience != route.Coach {
			t.Errorf("%s %s is for %s", row.Method, row.Pattern, row.Audience)
		}
	}
}

// sameOrigin is what a browser says of a form on our own page.
var sameOrigin = map[string]string{"Sec-Fetch-Site": "same-origin"}

// Ids of another club, of a coach, of nobody and of no shape are all "not
// here", on every page and for every write, and change nothing.
func TestOtherIdsAreNotHere(t *testing.T) {
	mine := newSite(t)
	other := storetest.AddScene(t, mine.Store)
	coach := mine.Coach.Person.String()
	for _, ids := range [][3]string{
		{other.Class.String(), other.Students[0].ID.String(), other.Table.ID.String()}, // another club
		{coach, coach, coach}, // a coach
		{uuid.NewString(), uuid.NewString(), uuid.NewString()}, // nobody
		{"1", "%27--", "%F0%9F%8E%B1"},                         // no shape
	} {
		replace := strings.NewReplacer("{class}", ids[0], "{student}", ids[1], "{table}", ids[2], "{change}", ids[1])
		for _, row := range rows() {
			if !strings.Contains(row.Pattern, "{") {
				continue
			}
			form := made("name", "Taken over", "side", "right", "names", "Intruder", "enter", mine.Class.String(), "feet", "7")
			mine.coach.SendWithHeaders(t, row.Method, replace.Replace(row.Pattern), form, sameOrigin).RequireStatus(t, http.StatusNotFound)
		}
	}
	_, students, err := other.Store.GetClass(t.Context(), other.Coach, other.Class)
	if err != nil || len(students) != 3 || students[0].Name == "Taken over" {
		t.Errorf("the other club's class is now %v, %v", students, err)
	}
	me, err := mine.Store.GetPerson(t.Context(), mine.Coach, mine.Coach.Person)
	if err != nil || me.Archived || me.Name != "Ines" {
		t.Errorf("the coach is now %+v, %v", me, err)
	}
}
