// Package door holds the pages before one is in: signing in and out, joining
// with a code, and setting up the first club.
package door

import (
	"net"
	"net/http"
	"strings"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Door is what these pages need.
type Door struct {
	Store    *store.Store
	Sessions *session.Manager
	Secrets  *account.Hasher
	// TooMany is the error that package web turns into "wait a few minutes".
	TooMany error

	fromOne, underOne *account.AttemptLimiter
}

// New makes the door. Tries are limited twice: under one name or code, where
// they are few, and from one address, where a whole club may sit behind it.
func New(s *store.Store, sessions *session.Manager, secrets *account.Hasher, tooMany error, now func() time.Time) *Door {
	return &Door{
		Store: s, Sessions: sessions, Secrets: secrets, TooMany: tooMany,
		fromOne:  account.NewAttemptLimiter(60, time.Second, now),
		underOne: account.NewAttemptLimiter(6, time.Minute, now),
	}
}

// Routes are the door's rows of the route table.
func (d *Door) Routes() []route.Route {
	return []route.Route{
		route.Get("/", route.Anyone, d.enter),
		route.Get("/sign-in", route.Anyone, d.showSignIn),
		route.Post("/sign-in", route.Anyone, d.signIn),
		route.Post("/sign-out", route.Anyone, d.signOut),
		route.Get("/join", route.Anyone, d.askCode),
		route.Post("/join", route.Anyone, d.takeCode),
		route.Get("/join/{code}", route.Anyone, d.showJoin),
		route.Post("/join/{code}", route.Anyone, d.join),
		route.Get("/set-up/{token}", route.Anyone, d.showSetUp),
		route.Post("/set-up/{token}", route.Anyone, d.setUp),
	}
}

// enter sends everyone to their own first page.
func (d *Door) enter(w http.ResponseWriter, r *http.Request) error {
	to := "/sign-in"
	if v, known := session.FindUser(r); known {
		to = firstPage(v.Role)
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
	return nil
}

func firstPage(role store.Role) string {
	if role == store.Coach {
		return "/desk"
	}
	return "/today"
}

// mayTry takes a try from this address and under this name.
func (d *Door) mayTry(r *http.Request, name string) error {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		host = r.RemoteAddr
	}
	if !d.fromOne.Allow(host) || !d.underOne.Allow(strings.ToLower(name)) {
		return d.TooMany
	}
	return nil
}
