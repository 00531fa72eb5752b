package roster_test

import (
	"errors"
	"io"
	"log/slog"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/roster"
	"breakwright/web/route"
	"breakwright/web/session"
	"breakwright/web/webtest"

	"github.com/go-chi/chi/v5"
	"github.com/google/uuid"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// publicURL is the address that the join codes lead to.
const publicURL = "https://breaks.example"

// site serves the roster alone to the scene's coach, over a real store. Who may
// call what is tested over the whole site, in package web.
type site struct {
	storetest.Scene
	url    string
	client *http.Client
	routes []route.Route
}

func newSite(t *testing.T) *site {
	t.Helper()
	return serve(t, storetest.NewScene(t))
}

func serve(t *testing.T, scene storetest.Scene) *site {
	t.Helper()
	keeper, err := session.NewKeeper(scene.Store, []byte("a secret for tests"), false, time.Now, slog.New(slog.DiscardHandler))
	if err != nil {
		t.Fatal(err)
	}
	routes := roster.New(scene.Store, keeper, publicURL+"/").Routes()
	mux := chi.NewRouter()
	for _, row := range routes {
		mux.Method(row.Method, row.Pattern, asCoach(t, scene.Coach, row.Handle))
	}
	server := httptest.NewServer(mux)
	t.Cleanup(server.Close)
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	return &site{Scene: scene, url: server.URL, client: &http.Client{Jar: jar}, routes: routes}
}

// asCoach does what package web does around a handler: it says who asks, and
// gives an error's kind a status.
func asCoach(t *testing.T, coach store.Viewer, handle route.Handler) http.HandlerFunc {
	visitor := session.Visitor{Viewer: coach, Name: "Ines", Club: "Harbour Lane", Zone: time.FixedZone("", 2*60*60)}
	return func(w http.ResponseWriter, r *http.Request) {
		err := handle(w, r.WithContext(session.With(r.Context(), visitor)))
		switch {
		case errors.Is(err, store.ErrNotFound):
			w.WriteHeader(http.StatusNotFound)
		case errors.Is(err, store.ErrConflict):
			w.WriteHeader(http.StatusConflict)
		case err != nil:
			t.Errorf("%s %s: %v", r.Method, r.URL, err)
			w.WriteHeader(http.StatusInternalServerError)
		}
	}
}

func (s *site) do(t *testing.T, method, path string, form url.Values, part bool) *webtest.Page {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), method, s.url+path, strings.NewReader(form.Encode()))
	if err != nil {
		t.Fatal(err)
	}
	if method == http.MethodPost {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	if part {
		r.Header.Set("HX-Request", "true")
	}
	answer, err := s.client.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return &webtest.Page{Code: answer.StatusCode, Path: answer.Request.URL.Path, Header: answer.Header, Text: string(text)}
}

// get opens a page that must be there.
func (s *site) get(t *testing.T, path string) *webtest.Page {
	t.Helper()
	return s.do(t, http.MethodGet, path, nil, false).Status(t, http.StatusOK)
}

// post sends a form and follows where it leads.
func (s *site) post(t *testing.T, path string, form url.Values) *webtest.Page {
	t.Helper()
	return s.do(t, http.MethodPost, path, form, false)
}

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
	if err := s.Store.Join(t.Context(), s.Scene.Student(i), hash, s.Students[i].Side); err != nil {
		t.Fatal(err)
	}
}

func TestOnlyCoachesMayCallTheRoster(t *testing.T) {
	routes := newSite(t).routes
	if len(routes) < 20 {
		t.Fatalf("%d routes", len(routes))
	}
	for _, row := range routes {
		if row.Who != route.Coach {
			t.Errorf("%s %s is for %s", row.Method, row.Pattern, row.Who)
		}
	}
}

// Ids of another club, of a coach, of nobody and of no shape are all "not
// here", on every page and for every write, and change nothing.
func TestOtherIdsAreNotHere(t *testing.T) {
	mine := newSite(t)
	other := storetest.AddScene(t, mine.Store)
	coach := mine.Coach.Person.String()
	for name, ids := range map[string][3]string{
		"another club": {other.Class.String(), other.Students[0].ID.String(), other.Table.ID.String()},
		"a coach":      {coach, coach, coach},
		"nobody":       {uuid.NewString(), uuid.NewString(), uuid.NewString()},
		"no shape":     {"1", "%27--", "%F0%9F%8E%B1"},
	} {
		replace := strings.NewReplacer("{class}", ids[0], "{student}", ids[1], "{table}", ids[2])
		for _, row := range mine.routes {
			if !strings.Contains(row.Pattern, "{") {
				continue
			}
			form := made("name", "Taken over", "side", "right", "names", "Intruder", "enter", mine.Class.String(), "feet", "7")
			mine.do(t, row.Method, replace.Replace(row.Pattern), form, false).Status(t, http.StatusNotFound)
		}
		t.Log(name)
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
