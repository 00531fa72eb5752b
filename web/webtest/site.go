// Package webtest gives tests the whole site over a database of their own: a
// server on a free port, people who can sign in, and pages to look into by
// selector.
package webtest

import (
	"bufio"
	"io"
	"log/slog"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web"
	"breakwright/web/route"
)

// Site is the running site with an invented club.
type Site struct {
	storetest.Scene
	URL    string
	Routes []route.Route
}

// New starts the site over a scene of its own; it ends with the test.
func New(t testing.TB) *Site {
	t.Helper()
	return Over(t, storetest.NewScene(t))
}

// WithHistory starts a site whose class has broken for a while, and gives its
// students.
func WithHistory(t testing.TB, h storetest.SimulatedHistory, options ...store.Option) (*Site, []store.Person) {
	t.Helper()
	owner := storetest.NewDatabase(t)
	scene := storetest.AddScene(t, storetest.Open(t, owner, options...))
	students := h.FillDatabase(t, owner, scene)
	return Over(t, scene), students
}

// Over starts the site over a scene that is there.
func Over(t testing.TB, scene storetest.Scene) *Site {
	t.Helper()
	server := httptest.NewUnstartedServer(nil)
	site, err := web.New(web.Config{
		URL: "http://" + server.Listener.Addr().String(), Secret: []byte("a secret for tests"),
		SecretCost: account.TestCost(), Now: time.Now, Log: slog.New(slog.DiscardHandler),
	}, scene.Store)
	if err != nil {
		t.Fatal(err)
	}
	server.Config.Handler = site
	server.Start()
	t.Cleanup(server.Close)
	return &Site{Scene: scene, URL: server.URL, Routes: site.Routes()}
}

// Person is somebody with a browser of their own: cookies are kept, and
// redirects followed.
type Person struct {
	site   *Site
	client *http.Client
}

// Nobody is a person who has not signed in.
func (s *Site) Nobody(t testing.TB) *Person {
	t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	return &Person{site: s, client: &http.Client{Jar: jar}}
}

// CoachIn signs the scene's coach in.
func (s *Site) CoachIn(t testing.TB) *Person {
	t.Helper()
	p := s.Nobody(t)
	p.Post(t, "/sign-in", url.Values{"who": {s.Login}, "secret": {storetest.Passphrase}}).Status(t, http.StatusOK)
	return p
}

// PIN is that of every student who joined through StudentIn.
const PIN = "blue chalk"

// StudentIn lets a student of the scene join and signs them in; a student who
// has joined before is signed in.
func (s *Site) StudentIn(t testing.TB, student store.Person) *Person {
	t.Helper()
	p := s.Nobody(t)
	joined := p.Post(t, "/join/"+student.Code, url.Values{"secret": {PIN}, "again": {PIN}, "side": {"left"}})
	if joined.Path == "/sign-in" {
		joined = p.Post(t, "/sign-in", url.Values{"who": {student.Code}, "secret": {PIN}})
	}
	if joined.Path != "/today" {
		t.Fatalf("%s signed in and came to %s (%d)", student.Name, joined.Path, joined.Code)
	}
	return p
}

// Copy is somebody else with the same cookies as they are now.
func (p *Person) Copy(t testing.TB) *Person {
	t.Helper()
	copied := p.site.Nobody(t)
	home, err := url.Parse(p.site.URL)
	if err != nil {
		t.Fatal(err)
	}
	copied.client.Jar.SetCookies(home, p.client.Jar.Cookies(home))
	return copied
}

// Still is the same person in a browser that stays where a redirect is.
func (p *Person) Still() *Person {
	client := *p.client
	client.CheckRedirect = func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }
	return &Person{site: p.site, client: &client}
}

// Send sends a request as it is, from a browser without cookies that stays
// where a redirect is. The caller has nothing to close.
func (s *Site) Send(t testing.TB, r *http.Request) *http.Response {
	t.Helper()
	r.RequestURI = ""
	answer, err := s.Nobody(t).Still().client.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	answer.Body.Close()
	return answer
}

// Stream opens an answer that goes on, a line at a time, until the test ends.
func (p *Person) Stream(t testing.TB, path string) *bufio.Scanner {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, p.site.URL+path, nil)
	if err != nil {
		t.Fatal(err)
	}
	answer, err := p.client.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { answer.Body.Close() })
	if answer.StatusCode != http.StatusOK {
		t.Fatalf("%s answered %d", path, answer.StatusCode)
	}
	return bufio.NewScanner(answer.Body)
}

// Get fetches a page.
func (p *Person) Get(t testing.TB, path string) *Page {
	t.Helper()
	return p.do(t, http.MethodGet, path, nil, nil)
}

// Post sends a form as a browser on our own pages does.
func (p *Person) Post(t testing.TB, path string, form url.Values) *Page {
	t.Helper()
	return p.do(t, http.MethodPost, path, form, map[string]string{"Sec-Fetch-Site": "same-origin"})
}

// Send posts a body of any kind as a browser on our own pages does, and follows
// where it leads.
func (p *Person) Send(t testing.TB, path, mediaType string, body io.Reader) *Page {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodPost, p.site.URL+path, body)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", mediaType)
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	return p.answer(t, r)
}

// Do sends a request with headers of its own.
func (p *Person) Do(t testing.TB, method, path string, form url.Values, headers map[string]string) *Page {
	t.Helper()
	return p.do(t, method, path, form, headers)
}

func (p *Person) do(t testing.TB, method, path string, form url.Values, headers map[string]string) *Page {
	t.Helper()
	var body io.Reader
	if method != http.MethodGet {
		body = strings.NewReader(form.Encode())
	}
	r, err := http.NewRequestWithContext(t.Context(), method, p.site.URL+path, body)
	if err != nil {
		t.Fatal(err)
	}
	if body != nil {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	for name, value := range headers {
		r.Header.Set(name, value)
	}
	return p.answer(t, r)
}

// answer sends a request and reads what comes back.
func (p *Person) answer(t testing.TB, r *http.Request) *Page {
	t.Helper()
	answer, err := p.client.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return &Page{Code: answer.StatusCode, Path: answer.Request.URL.Path, Header: answer.Header, Text: string(text)}
}
