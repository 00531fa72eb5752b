package web_test

import (
	"bytes"
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"slices"
	"strings"
	"testing"

	"github.com/google/uuid"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/route"
	"breakwright/web/webtest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// world is two clubs on one site; the first has a closed set with a
// prescription.
type world struct {
	site   *webtest.Site
	first  storetest.Scene
	second storetest.Scene
	// ids fill the patterns with what belongs to the first club.
	ids map[string]string
}

func newWorld(t *testing.T) world { return newWorldIn(t, storetest.New(t)) }

// newWorldIn makes the world in a store that is there.
func newWorldIn(t *testing.T, s *store.Store) world {
	first := storetest.AddScene(t, s)
	second := storetest.AddScene(t, first.Store)
	student := store.Actor{Club: first.Coach.Club, Person: first.Students[0].ID, Role: store.Student}
	closed := first.RecordBreaks(t, student, 10)
	first.CloseSet(t, student, closed, -16)
	open := first.RecordBreaks(t, student, 3)
	set, err := first.Store.GetSet(t.Context(), first.Coach, open)
	if err != nil {
		t.Fatal(err)
	}
	pending, err := first.Store.ListPendingPrescriptions(t.Context(), first.Coach)
	if err != nil || len(pending) != 1 {
		t.Fatalf("%d prescriptions wait (%v), want one", len(pending), err)
	}
	job := store.Job{ID: store.NewID[store.JobID](), Kind: store.ImportJob, Title: "breaks.csv"}
	if err := first.Store.CreateJob(t.Context(), first.Coach, job, writeLog(t, first)); err != nil {
		t.Fatal(err)
	}
	change, err := first.Store.ChangeStudents(t.Context(), first.Coach, store.RosterChange{Kind: store.SetSides, Side: "left"}, nil)
	if err != nil {
		t.Fatal(err)
	}
	welcome := store.NewID[store.MessageID]()
	if _, err := first.Store.PostToStudents(t.Context(), first.Coach, welcome, []store.PersonID{first.Students[2].ID}, "Welcome."); err != nil {
		t.Fatal(err)
	}
	messages, err := first.Store.GetToday(t.Context(), first.StudentActor(2))
	if err != nil {
		t.Fatal(err)
	}
	return world{site: webtest.NewOverScene(t, first), first: first, second: second, ids: map[string]string{
		"{class}": first.Class.String(), "{change}": change.ID.String(), "{student}": first.Students[0].ID.String(), "{table}": first.Table.ID.String(),
		"{drill}": first.Drill.ID.String(), "{assignment}": first.Assignment.String(), "{set}": open.String(), "{from}": "set-" + open.String(),
		"{job}": job.ID.String(), "{break}": set.Breaks[0].ID.String(), "{prescription}": pending[0].ID.String(),
		"{coach}": first.Coach.Person.String(), "{message}": messages.Messages[0].ID.String(),
		"{code}": first.Students[2].Code, "{token}": "no-such-token",
	}}
}

// writeLog returns the break log of a club.
func writeLog(t *testing.T, sc storetest.Scene) []byte {
	t.Helper()
	var file bytes.Buffer
	log := breaklog.NewWriter(&file)
	err := sc.Store.ExportSets(t.Context(), sc.Coach, store.ExportScope{}, func(_ store.Person, sets []drill.Set) error { return log.Write(sets) })
	if err := errors.Join(err, log.Close()); err != nil {
		t.Fatal(err)
	}
	return file.Bytes()
}

// address fills a route's pattern with what belongs to the first club.
func (w world) address(t *testing.T, r route.Route) string {
	address := r.Pattern
	for pattern, id := range w.ids {
		address = strings.ReplaceAll(address, pattern, id)
	}
	if strings.ContainsAny(address, "{}") {
		t.Fatalf("%s %s: this test does not know what to put into the pattern", r.Method, r.Pattern)
	}
	return address
}

// try sends a request to a route without following redirects. What it sends
// would be taken if the caller were the right one, or refused as a bad form.
func (w world) try(t *testing.T, p *webtest.Client, r route.Route) *webtest.Page {
	form := url.Values{}
	for _, id := range []string{"id", "break_id", "message_id", "set_id", "form"} {
		form.Set(id, uuid.Must(uuid.NewV7()).String())
	}
	form.Set("revision", "1")
	form.Set("table", w.first.Table.ID.String())
	return p.WithoutRedirects().SendWithHeaders(t, r.Method, w.address(t, r), form, map[string]string{"Sec-Fetch-Site": "same-origin"})
}

func TestRoutes_NobodyIsSentToSignIn(t *testing.T) {
	w := newWorld(t)
	nobody := w.site.NewClient(t)
	for _, r := range w.site.Routes {
		if r.Audience == route.Anyone {
			continue
		}
		got := w.try(t, nobody, r)
		if got.Code != http.StatusSeeOther || !strings.HasPrefix(got.Header.Get("Location"), "/sign-in") {
			t.Errorf("%s %s answers nobody with %d to %q", r.Method, r.Pattern, got.Code, got.Header.Get("Location"))
		}
	}
}

func TestRoutes_TheWrongRoleIsTurnedAway(t *testing.T) {
	w := newWorld(t)
	coach, student := w.site.SignInCoach(t), w.site.SignInStudent(t, w.first.Students[0])
	for _, r := range w.site.Routes {
		wrong := map[route.Audience]*webtest.Client{route.Coach: student, route.Student: coach}[r.Audience]
		if wrong == nil {
			continue
		}
		if got := w.try(t, wrong, r); got.Code != http.StatusForbidden {
			t.Errorf("%s %s answers the wrong role with %d", r.Method, r.Pattern, got.Code)
		}
	}
}

// Whoever belongs to another club, or is another student of the same, learns
// nothing but that there is no such page.
func TestRoutes_OtherPeoplesThingsAreNotThere(t *testing.T) {
	w := newWorld(t)
	other := webtest.NewOverScene(t, w.second)
	strangers := map[route.Audience][]*webtest.Client{
		route.Coach:   {other.SignInCoach(t)},
		route.Student: {other.SignInStudent(t, w.second.Students[0]), w.site.SignInStudent(t, w.first.Students[1])},
		route.Member:  {other.SignInCoach(t), other.SignInStudent(t, w.second.Students[1])},
	}
	for _, r := range w.site.Routes {
		if !strings.Contains(r.Pattern, "{") {
			continue
		}
		for i, stranger := range strangers[r.Audience] {
			shared := i == 1 && strings.HasPrefix(r.Pattern, "/today/{assignment}") // the whole class has it
			if got := w.try(t, stranger, r); got.Code != http.StatusNotFound && !shared {
				t.Errorf("%s %s answers stranger %d with %d", r.Method, r.Pattern, i, got.Code)
			}
		}
	}
}

// No page falls over, whatever stands in its address.
func TestRoutes_AddressesThatAreNoIDs(t *testing.T) {
	w := newWorld(t)
	people := map[route.Audience]*webtest.Client{
		route.Coach: w.site.SignInCoach(t), route.Student: w.site.SignInStudent(t, w.first.Students[0]), route.Anyone: w.site.NewClient(t),
	}
	for _, r := range w.site.Routes {
		if !strings.Contains(r.Pattern, "{") || people[r.Audience] == nil {
			continue
		}
		for _, junk := range []string{"0", "x%00y", "%F0%9F%8E%B1", strings.Repeat("9", 300), uuid.Nil.String()} {
			odd := w
			odd.ids = map[string]string{}
			for pattern := range w.ids {
				odd.ids[pattern] = junk
			}
			got := odd.try(t, people[r.Audience], r)
			if got.Code >= 500 || got.Code == http.StatusOK {
				t.Errorf("%s %s with %.20q answers %d", r.Method, r.Pattern, junk, got.Code)
			}
		}
	}
}

func TestRoutes_CrossSiteWritesAreRefused(t *testing.T) {
	w := newWorld(t)
	coach := w.site.SignInCoach(t)
	for _, r := range w.site.Routes {
		if r.Method != http.MethodPost {
			continue
		}
		got := coach.WithoutRedirects().SendWithHeaders(t, r.Method, w.address(t, r), url.Values{}, map[string]string{"Sec-Fetch-Site": "cross-site", "Origin": "https://elsewhere.example"})
		if got.Code != http.StatusForbidden || !strings.Contains(got.Text, "another site") {
			t.Errorf("POST %s from another site answers %d", r.Pattern, got.Code)
		}
	}
}

func TestRoutes_OnceEach(t *testing.T) {
	w := webtest.New(t)
	var seen []string
	for _, r := range w.Routes {
		row := r.Method + " " + r.Pattern
		if slices.Contains(seen, row) {
			t.Errorf("%s stands in the table twice", row)
		}
		if r.Audience == route.Anyone && !strings.HasPrefix(r.Pattern, "/sign-") && !strings.HasPrefix(r.Pattern, "/join") &&
			!strings.HasPrefix(r.Pattern, "/set-up/") && !strings.HasPrefix(r.Pattern, "/invite/") && !slices.Contains(openToAll, r.Pattern) {
			t.Errorf("%s is open to anyone: is that meant?", row)
		}
		seen = append(seen, row)
	}
	if len(seen) < 30 {
		t.Errorf("only %d routes: the table is not whole", len(seen))
	}
}

// openToAll are the routes beside the sign-in's that nobody may call: the first
// page, which sends everyone on, and what a phone needs before it is signed in.
var openToAll = []string{"/privacy", "/words", "/", "/table", "/sw.js", "/manifest.webmanifest"}

// Every page says the same strict things to the browser.
func TestHeaders(t *testing.T) {
	w := webtest.New(t)
	for _, path := range []string{"/sign-in", "/no-such-page", "/healthz"} {
		got := w.NewClient(t).Get(t, path)
		policy := got.Header.Get("Content-Security-Policy")
		for _, want := range []string{"default-src 'self'", "frame-ancestors 'none'", "form-action 'self'", "base-uri 'none'"} {
			if !strings.Contains(policy, want) {
				t.Errorf("%s: the policy %q has no %s", path, policy, want)
			}
		}
		if strings.Contains(policy, "unsafe") {
			t.Errorf("%s: the policy %q is not strict", path, policy)
		}
	}
}

// The cookie can be read by no script, and holds nothing but a token.
func TestCookie_IsClosed(t *testing.T) {
	w := webtest.New(t)
	r := httptest.NewRequest(http.MethodPost, w.URL+"/sign-in", strings.NewReader(url.Values{"who": {w.Login}, "secret": {storetest.Passphrase}}.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	answer := w.SendRequest(t, r)
	found := false
	for _, c := range answer.Cookies() {
		if c.Name != "breakwright" || c.MaxAge < 0 {
			continue
		}
		found = true
		if !c.HttpOnly || c.SameSite != http.SameSiteLaxMode || strings.Contains(c.Value, w.Login) {
			t.Errorf("cookie %s", fmt.Sprint(c))
		}
	}
	if !found {
		t.Fatalf("signing in set no cookie (%d)", answer.StatusCode)
	}
}
