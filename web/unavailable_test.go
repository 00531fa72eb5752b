//go:build !quick

package web_test

import (
	"net/http"
	"net/url"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/localpg"
	"breakwright/internal/localpg/localpgtest"
	"breakwright/internal/store"
	"breakwright/internal/store/storetest"
	"breakwright/web/route"
	"breakwright/web/webtest"
)

// newFragileWorld is a world on a server of its own that the test may stop or
// freeze.
func newFragileWorld(t *testing.T) (world, *localpg.Server) {
	t.Helper()
	server := localpgtest.NewServer(t)
	limits := store.TimeLimits{Connection: 2 * time.Second, Statement: 2 * time.Second, IdleTransaction: time.Minute, Unacknowledged: time.Second}
	return newWorldIn(t, storetest.Open(t, storetest.MigrateOn(t, server), store.WithTimeLimits(limits))), server
}

// While the database is away every page says so: nobody is sent to the sign-in
// page, and nothing is called a fault of ours. What needs no database goes on.
func TestUnavailable_EveryRouteSaysSo(t *testing.T) {
	w, server := newFragileWorld(t)
	people := map[route.Audience]*webtest.Client{
		route.Coach: w.site.SignInCoach(t), route.Student: w.site.SignInStudent(t, w.first.Students[0]),
		route.Anyone: w.site.NewClient(t),
	}
	people[route.Member] = people[route.Coach]
	server.Stop()
	for _, r := range w.site.Routes {
		got := w.try(t, people[r.Audience], r)
		location := got.Header.Get("Location")
		switch {
		case r.Pace == route.Asset:
			got.RequireStatus(t, http.StatusOK)
		case r.Audience == route.Anyone && got.Code < 500 && (location == "" || location == "/sign-in" || strings.HasPrefix(location, "/join/")):
			// a page for somebody who has not signed in asks for nothing yet
		case got.Code != http.StatusServiceUnavailable || got.Header.Get("Retry-After") == "":
			t.Errorf("%s %s answers %d to %q, with Retry-After %q", r.Method, r.Pattern, got.Code, location, got.Header.Get("Retry-After"))
		}
	}
	for path, want := range map[string]int{"/livez": 200, "/healthz": 503, "/readyz": 503, "/table": 200, "/": 503} {
		if got := people[route.Student].WithoutRedirects().Get(t, path); got.Code != want {
			t.Errorf("%s answers %d, want %d", path, got.Code, want)
		}
	}
}

// What was typed comes back, and is saved when it is sent again.
func TestUnavailable_WhatWasTypedIsKept(t *testing.T) {
	w, server := newFragileWorld(t)
	coach := w.site.SignInCoach(t)
	path := "/sets/" + w.ids["{set}"] + "/messages"
	const typed = `Chalk "first" & aim <low>`
	server.Stop()
	got := coach.Post(t, path, url.Values{"message_id": {uuid.Must(uuid.NewV7()).String()}, "body": {typed}})
	got.RequireStatus(t, http.StatusServiceUnavailable).RequireText(t, "main", "The database does not answer", "nobody is signed out", typed)
	if action := got.AttributeOf(t, "main form", "action"); action != path {
		t.Errorf("it is sent again to %q", action)
	}
	signIn := w.site.NewClient(t).Post(t, "/sign-in", url.Values{"who": {w.first.Login}, "secret": {storetest.Passphrase}})
	signIn.RequireStatus(t, http.StatusServiceUnavailable)
	if strings.Contains(signIn.Text, storetest.Passphrase) || signIn.AttributeOf(t, "main a.button", "href") != "/sign-in" {
		t.Errorf("the page after signing in shows the secret, or leads nowhere: %s", signIn.Text)
	}
	localpgtest.StartIn(t, server.Dir)
	again := coach.Post(t, path, got.FormValues(t, "main form"))
	again.RequireStatus(t, http.StatusOK).RequireText(t, "main", typed)
}

// So does every field of every form, but for secrets: they are shown nowhere, and the way
// leads back to their page.
func TestUnavailable_EveryFormIsKept(t *testing.T) {
	w, server := newFragileWorld(t)
	coach, student := w.site.SignInCoach(t), w.site.SignInStudent(t, w.first.Students[0])
	forms := map[*webtest.Client]map[string]webtest.Form{
		coach: w.formsOf(t, coach, route.Coach, route.Member), student: w.formsOf(t, student, route.Student, route.Member),
	}
	server.Stop()
	secrets := 0
	for client, ofClient := range forms {
		for path, form := range ofClient {
			for _, field := range form.Secret {
				form.Values.Set(field, "unspoken words")
			}
			got := client.WithoutRedirects().Post(t, path, form.Values).RequireStatus(t, http.StatusServiceUnavailable)
			if len(form.Secret) > 0 {
				secrets++
				if strings.Contains(got.Text, "unspoken") || got.AttributeOf(t, "main a.button", "href") != path {
					t.Errorf("%s shows a secret, or leads nowhere: %s", path, got.Text)
				}
			} else if again := got.FormValues(t, "main form"); !reflect.DeepEqual(again, form.Values) {
				t.Errorf("%s comes back as %v, and was sent as %v", path, again, form.Values)
			}
		}
	}
	if secrets < 4 {
		t.Errorf("%d forms with a secret were tried", secrets)
	}
}

// A phone is told to come back, in JSON, and stays signed in; so too when the
// database stands still.
func TestUnavailable_PhonesAreToldToComeBack(t *testing.T) {
	w, server := newFragileWorld(t)
	phone := w.site.SignInStudent(t, w.first.Students[0])
	send := func() *webtest.Page {
		return phone.PostBody(t, "/sync", "application/json", strings.NewReader(`{"person":"`+w.first.Students[0].ID.String()+`","items":[]}`))
	}
	send().RequireStatus(t, http.StatusOK)
	thaw := localpgtest.Freeze(t, server)
	got := send()
	if got.Code != http.StatusServiceUnavailable || got.Header.Get("Retry-After") == "" ||
		!strings.HasPrefix(got.Header.Get("Content-Type"), "application/json") || !strings.Contains(got.Text, `"unavailable"`) {
		t.Errorf("a phone gets %d: %s", got.Code, got.Text)
	}
	w.site.NewClient(t).Get(t, "/healthz").RequireStatus(t, http.StatusServiceUnavailable)
	thaw()
	for got = send(); got.Code == http.StatusServiceUnavailable; got = send() {
		time.Sleep(10 * time.Millisecond) // until connections that were given up are gone
	}
	got.RequireStatus(t, http.StatusOK)
}
