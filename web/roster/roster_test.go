package roster_test

import (
	"bytes"
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
	"breakwright/web/page"
	"breakwright/web/roster"
	"breakwright/web/route"
	"breakwright/web/session"

	"github.com/andybalholm/cascadia"
	"github.com/go-chi/chi/v5"
	"golang.org/x/net/html"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// site serves the roster alone to one visitor, over a real store.
type site struct {
	storetest.Scene
	t       *testing.T
	handler http.Handler
	client  http.CookieJar
}

const publicURL = "https://breaks.example"

func newSite(t *testing.T) *site {
	t.Helper()
	return serve(t, storetest.NewScene(t))
}

func serve(t *testing.T, scene storetest.Scene) *site {
	t.Helper()
	log := slog.New(slog.DiscardHandler)
	keeper, err := session.NewKeeper(scene.Store, bytes.Repeat([]byte("k"), 32), false, time.Now, log)
	if err != nil {
		t.Fatal(err)
	}
	mux := chi.NewRouter()
	for _, row := range roster.New(scene.Store, keeper, publicURL).Routes() {
		mux.Method(row.Method, row.Pattern, asVisitor(t, scene.Coach, row.Handle))
	}
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	return &site{Scene: scene, t: t, handler: mux, client: jar}
}

// asVisitor does what package web does around a handler: it says who asks and
// turns the kinds of error that matter here into a status.
func asVisitor(t *testing.T, coach store.Viewer, handle route.Handler) http.HandlerFunc {
	visitor := session.Visitor{Viewer: coach, Name: "Ines", Club: "Harbour Lane", Zone: time.UTC}
	return func(w http.ResponseWriter, r *http.Request) {
		err := handle(w, r.WithContext(session.With(r.Context(), visitor)))
		switch {
		case err == nil:
		case errors.Is(err, store.ErrNotFound):
			w.WriteHeader(http.StatusNotFound)
		case errors.Is(err, store.ErrConflict):
			w.WriteHeader(http.StatusConflict)
		case errors.Is(err, page.ErrForm):
			w.WriteHeader(http.StatusBadRequest)
		default:
			t.Errorf("%s %s: %v", r.Method, r.URL, err)
			w.WriteHeader(http.StatusInternalServerError)
		}
	}
}

// answer is a page that came back.
type answer struct {
	t      *testing.T
	status int
	header http.Header
	doc    *html.Node
	text   string
}

func (s *site) send(method, path string, fields url.Values, headers ...string) answer {
	s.t.Helper()
	r := httptest.NewRequest(method, path, strings.NewReader(fields.Encode()))
	if method == http.MethodPost {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	for i := 0; i+1 < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
	}
	for _, cookie := range s.client.Cookies(r.URL) {
		r.AddCookie(cookie)
	}
	w := httptest.NewRecorder()
	s.handler.ServeHTTP(w, r)
	s.client.SetCookies(r.URL, w.Result().Cookies())
	text, err := io.ReadAll(w.Result().Body)
	if err != nil {
		s.t.Fatal(err)
	}
	doc, err := html.Parse(bytes.NewReader(text))
	if err != nil {
		s.t.Fatal(err)
	}
	return answer{s.t, w.Code, w.Header(), doc, string(text)}
}

func (s *site) get(path string) answer { s.t.Helper(); return s.send(http.MethodGet, path, nil) }

// open gets a page that must be there.
func (s *site) open(path string) answer {
	s.t.Helper()
	a := s.get(path)
	a.is(http.StatusOK)
	return a
}

func (s *site) post(path string, fields ...string) answer {
	s.t.Helper()
	return s.send(http.MethodPost, path, values(fields...))
}

// values pairs names with values.
func values(fields ...string) url.Values {
	v := url.Values{}
	for i := 0; i+1 < len(fields); i += 2 {
		v.Add(fields[i], fields[i+1])
	}
	return v
}

func (a answer) is(status int) {
	a.t.Helper()
	if a.status != status {
		a.t.Fatalf("status %d, want %d; the page says %q", a.status, status, a.words("main"))
	}
}

// wentTo says that the browser is sent on to the path.
func (a answer) wentTo(path string) {
	a.t.Helper()
	a.is(http.StatusSeeOther)
	if to := a.header.Get("Location"); to != path {
		a.t.Fatalf("sent on to %s, want %s", to, path)
	}
}

func (a answer) all(selector string) []*html.Node {
	return cascadia.QueryAll(a.doc, cascadia.MustCompile(selector))
}

// words are the text of everything selected, white space as a browser shows it.
func (a answer) words(selector string) string {
	var words []string
	for _, n := range a.all(selector) {
		words = append(words, strings.Fields(textOf(n))...)
	}
	return strings.Join(words, " ")
}

func textOf(n *html.Node) string {
	if n.Type == html.TextNode {
		return n.Data + " "
	}
	var b strings.Builder
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		b.WriteString(textOf(c))
	}
	return b.String()
}

// attr is an attribute of the one node selected.
func (a answer) attr(selector, name string) string {
	a.t.Helper()
	nodes := a.all(selector)
	if len(nodes) != 1 {
		a.t.Fatalf("%d nodes for %s, want 1", len(nodes), selector)
	}
	for _, at := range nodes[0].Attr {
		if at.Key == name {
			return at.Val
		}
	}
	return ""
}

// says checks that the words of the selected nodes hold the phrase.
func (a answer) says(selector, phrase string) {
	a.t.Helper()
	if words := a.words(selector); !strings.Contains(words, phrase) {
		a.t.Errorf("%s says %q, want %q in it", selector, words, phrase)
	}
}

func (a answer) counts(selector string, n int) {
	a.t.Helper()
	if got := len(a.all(selector)); got != n {
		a.t.Errorf("%d of %s, want %d", got, selector, n)
	}
}

// class is the address of the scene's class, student that of its i-th student.
func (s *site) class() string        { return "/classes/" + s.Class.String() }
func (s *site) student(i int) string { return "/students/" + s.Students[i].ID.String() }
func (s *site) table() string        { return "/tables/" + s.Table.ID.String() }

// members are the class's students as the store has them now.
func (s *site) members() []store.Person {
	s.t.Helper()
	_, members, err := s.Store.GetClass(s.t.Context(), s.Coach, s.Class)
	if err != nil {
		s.t.Fatal(err)
	}
	return members
}
