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
	// Pages answers without a network; its Drain begins the end.
	Pages *web.Server
}

// New starts the site over a scene of its own; it ends with the test.
func New(t testing.TB) *Site {
	t.Helper()
	return NewOverScene(t, storetest.NewScene(t))
}

// NewWithHistory starts a site whose class has broken for a while, and returns its
// students.
func NewWithHistory(t testing.TB, h storetest.SimulatedHistory, options ...store.Option) (*Site, []store.Person) {
	t.Helper()
	owner := storetest.NewDatabase(t)
	scene := storetest.AddScene(t, storetest.Open(t, owner, options...))
	students := h.FillDatabase(t, owner, scene)
	return NewOverScene(t, scene), students
}

// patience is wide: a machine that runs every package and browser at once with the
// race detector is slow, and no test of a page is about that.
func patience() web.TimeLimits {
	return web.TimeLimits{Request: 2 * time.Minute, Reader: 2 * time.Minute, Upload: 5 * time.Minute, Download: 30 * time.Minute}
}

// NewOverScene starts the site over a scene that is there; change may set it up
// otherwise, with another clock for example.
func NewOverScene(t testing.TB, scene storetest.Scene, change ...func(*web.Config)) *Site {
	t.Helper()
	server := httptest.NewUnstartedServer(nil)
	config := web.Config{
		URL: "http://" + server.Listener.Addr().String(), Secret: []byte("a secret for tests"),
		SecretCost: account.TestCost(), Now: time.Now, Log: slog.New(slog.DiscardHandler),
		TimeLimits: patience(),
	}
	for _, fn := range change {
		fn(&config)
	}
	site, err := web.New(config, scene.Store)
	if err != nil {
		t.Fatal(err)
	}
	server.Config.Handler = site
	server.Start()
	t.Cleanup(server.Close)
	return &Site{Scene: scene, URL: server.URL, Routes: site.Routes(), Pages: site}
}

// Client is somebody with a browser of their own: cookies are kept, and
// redirects followed.
type Client struct {
	site       *Site
	httpClient *http.Client
	// from is the address that a proxy names for them; "" for no proxy.
	from string
}

// From is the same person behind a proxy that names their address.
func (p *Client) From(address string) *Client {
	return &Client{site: p.site, httpClient: p.httpClient, from: address}
}

// At is the same person, with the same cookies, at another server of the same club.
func (p *Client) At(site *Site) *Client {
	return &Client{site: site, httpClient: p.httpClient, from: p.from}
}

// NewClient is a person who has not signed in.
func (s *Site) NewClient(t testing.TB) *Client {
	t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	return &Client{site: s, httpClient: &http.Client{Jar: jar}}
}

// SignInCoach signs the scene's coach in.
func (s *Site) SignInCoach(t testing.TB) *Client {
	t.Helper()
	p := s.NewClient(t)
	p.Post(t, "/sign-in", url.Values{"who": {s.Login}, "secret": {storetest.Passphrase}}).RequireStatus(t, http.StatusOK)
	return p
}

// PIN is that of every student who joined through StudentIn.
const PIN = "blue chalk"

// SignInStudent lets a student of the scene join and signs them in; a student who
// has joined before is signed in.
func (s *Site) SignInStudent(t testing.TB, student store.Person) *Client {
	t.Helper()
	p := s.NewClient(t)
	joined := p.Post(t, "/join/"+student.Code, url.Values{"secret": {PIN}, "again": {PIN}, "side": {"left"}})
	if joined.Path == "/sign-in" {
		joined = p.Post(t, "/sign-in", url.Values{"who": {student.Code}, "secret": {PIN}})
	}
	if joined.Path != "/today" {
		t.Fatalf("%s signed in and came to %s (%d)", student.Name, joined.Path, joined.Code)
	}
	return p
}

// CopyCookies is somebody else with the same cookies as they are now.
func (p *Client) CopyCookies(t testing.TB) *Client {
	t.Helper()
	copied := p.site.NewClient(t)
	home, err := url.Parse(p.site.URL)
	if err != nil {
		t.Fatal(err)
	}
	copied.httpClient.Jar.SetCookies(home, p.Cookies(t))
	return copied
}

// Cookies are those they have now.
func (p *Client) Cookies(t testing.TB) []*http.Cookie {
	t.Helper()
	home, err := url.Parse(p.site.URL)
	if err != nil {
		t.Fatal(err)
	}
	return p.httpClient.Jar.Cookies(home)
}

// WithoutRedirects is the same person in a browser that stays where a redirect is.
func (p *Client) WithoutRedirects() *Client {
	client := *p.httpClient
	client.CheckRedirect = func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }
	return &Client{site: p.site, httpClient: &client, from: p.from}
}

// SendRequest sends a request as it is, from a browser without cookies that stays
// where a redirect is. The caller has nothing to close.
func (s *Site) SendRequest(t testing.TB, r *http.Request) *http.Response {
	t.Helper()
	r.RequestURI = ""
	answer, err := s.NewClient(t).WithoutRedirects().httpClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	answer.Body.Close()
	return answer
}

// OpenStream opens an answer that goes on, a line at a time, until the test ends.
func (p *Client) OpenStream(t testing.TB, path string) *bufio.Scanner {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, p.site.URL+path, nil)
	if err != nil {
		t.Fatal(err)
	}
	answer, err := p.httpClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { answer.Body.Close() })
	if answer.StatusCode != http.StatusOK {
		t.Fatalf("%s answered %d", path, answer.StatusCode)
	}
	return bufio.NewScanner(answer.Body)
}

// Into asks for a page without a network, so that the answer goes into w as it
// is written.
func (p *Client) Into(t testing.TB, w http.ResponseWriter, path string) {
	t.Helper()
	r := httptest.NewRequestWithContext(t.Context(), http.MethodGet, p.site.URL+path, nil)
	home, err := url.Parse(p.site.URL)
	if err != nil {
		t.Fatal(err)
	}
	for _, cookie := range p.httpClient.Jar.Cookies(home) {
		r.AddCookie(cookie)
	}
	p.site.Pages.ServeHTTP(w, r)
}

// Get fetches a page.
func (p *Client) Get(t testing.TB, path string) *Page {
	t.Helper()
	return p.sendForm(t, http.MethodGet, path, nil, nil)
}

// Post sends a form as a browser on our own pages does.
func (p *Client) Post(t testing.TB, path string, form url.Values) *Page {
	t.Helper()
	return p.sendForm(t, http.MethodPost, path, form, map[string]string{"Sec-Fetch-Site": "same-origin"})
}

// PostBody posts a body of any kind as a browser on our own pages does, and follows
// where it leads.
func (p *Client) PostBody(t testing.TB, path, mediaType string, body io.Reader) *Page {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodPost, p.site.URL+path, body)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", mediaType)
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	return p.readPage(t, r)
}

// SendWithHeaders sends a request with headers of its own.
func (p *Client) SendWithHeaders(t testing.TB, method, path string, form url.Values, headers map[string]string) *Page {
	t.Helper()
	return p.sendForm(t, method, path, form, headers)
}

func (p *Client) sendForm(t testing.TB, method, path string, form url.Values, headers map[string]string) *Page {
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
	return p.readPage(t, r)
}

// readPage sends a request and reads what comes back.
func (p *Client) readPage(t testing.TB, r *http.Request) *Page {
	t.Helper()
	if p.from != "" {
		r.Header.Set("X-Forwarded-For", p.from)
	}
	answer, err := p.httpClient.Do(r)
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
