package drills_test

import (
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/go-chi/chi/v5"

	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/drills"
	"breakwright/web/session"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// coachClient is a coach who uses the pages of this package over a real store.
type coachClient struct {
	storetest.Scene
	pages  http.Handler
	failed error // what the last handler gave back
	user   session.User
}

func newCoachClient(t testing.TB, scene storetest.Scene) *coachClient {
	t.Helper()
	sessions, err := session.NewManager(scene.Store, []byte("a secret for tests"), false, time.Now, slog.New(slog.DiscardHandler))
	if err != nil {
		t.Fatal(err)
	}
	d := &coachClient{Scene: scene, user: session.User{Actor: scene.Coach, Name: "Ines", Club: "Harbour Lane", Zone: time.UTC}}
	router := chi.NewRouter()
	for _, row := range drills.New(scene.Store, sessions).Routes() {
		router.MethodFunc(row.Method, row.Pattern, func(w http.ResponseWriter, r *http.Request) {
			if d.failed = row.Handle(w, r.WithContext(session.WithUser(r.Context(), d.user))); d.failed != nil {
				http.Error(w, d.failed.Error(), http.StatusTeapot)
			}
		})
	}
	d.pages = router
	return d
}

// send sends a request and follows one redirect, as a browser does.
func (d *coachClient) send(t testing.TB, r *http.Request) *webtest.Page {
	t.Helper()
	d.failed = nil
	answer := httptest.NewRecorder()
	d.pages.ServeHTTP(answer, r)
	if to := answer.Header().Get("Location"); answer.Code == http.StatusSeeOther {
		next := httptest.NewRequestWithContext(t.Context(), http.MethodGet, to, nil)
		for _, cookie := range answer.Result().Cookies() {
			next.AddCookie(cookie)
		}
		return d.send(t, next)
	}
	return &webtest.Page{Code: answer.Code, Path: r.URL.Path, Header: answer.Header(), Text: answer.Body.String()}
}

func (d *coachClient) get(t testing.TB, path string) *webtest.Page {
	t.Helper()
	return d.send(t, httptest.NewRequestWithContext(t.Context(), http.MethodGet, path, nil))
}

func (d *coachClient) post(t testing.TB, path string, form url.Values) *webtest.Page {
	t.Helper()
	return d.send(t, posting(t, path, form))
}

// part posts as htmx does.
func (d *coachClient) part(t testing.TB, path string, form url.Values) *webtest.Page {
	t.Helper()
	r := posting(t, path, form)
	r.Header.Set("HX-Request", "true")
	return d.send(t, r)
}

func posting(t testing.TB, path string, form url.Values) *http.Request {
	r := httptest.NewRequestWithContext(t.Context(), http.MethodPost, path, strings.NewReader(form.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	return r
}

// drills returns the club's drills that are not archived.
func (d *coachClient) drills(t testing.TB) []store.Drill {
	t.Helper()
	drills, err := d.Store.ListDrills(t.Context(), d.Coach, store.ActiveOnly)
	if err != nil {
		t.Fatal(err)
	}
	return drills
}

// with returns a copy of a form with fields set, name and value by turns.
func with(form url.Values, pairs ...string) url.Values {
	changed := url.Values{}
	for name, values := range form {
		changed[name] = append([]string(nil), values...)
	}
	for i := 0; i+1 < len(pairs); i += 2 {
		changed.Set(pairs[i], pairs[i+1])
	}
	return changed
}
