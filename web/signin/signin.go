// Package signin holds the pages before one is in: signing in and out, joining
// with a code, and setting up the first club.
package signin

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

// Pages is what these pages need.
type Pages struct {
	Store    *store.Store
	Sessions *session.Manager
	Secrets  *account.Hasher
	// TooMany is the error that package web turns into "wait a few minutes".
	TooMany error

	perAddress, perName *account.AttemptLimiter
}

// New makes the door. Tries are limited twice: under one name or code, where
// they are few, and from one address, where a whole club may sit behind it.
func New(s *store.Store, sessions *session.Manager, secrets *account.Hasher, tooMany error, now func() time.Time) *Pages {
	return &Pages{
		Store: s, Sessions: sessions, Secrets: secrets, TooMany: tooMany,
		perAddress: account.NewAttemptLimiter(60, time.Second, now),
		perName:    account.NewAttemptLimiter(6, time.Minute, now),
	}
}

// Routes are the door's rows of the route table.
func (d *Pages) Routes() []route.Route {
	return []route.Route{
		route.Get("/", route.Anyone, d.redirectHome),
		route.Get("/sign-in", route.Anyone, d.showSignIn),
		route.Post("/sign-in", route.Anyone, d.signIn),
		route.Post("/sign-out", route.Anyone, d.signOut),
		route.Get("/join", route.Anyone, d.showCodeForm),
		route.Post("/join", route.Anyone, d.submitCode),
		route.Get("/join/{code}", route.Anyone, d.showJoinForm),
		route.Post("/join/{code}", route.Anyone, d.joinClub),
		route.Get("/set-up/{token}", route.Anyone, d.showSetUp),
		route.Post("/set-up/{token}", route.Anyone, d.setUpClub),
	}
}

// redirectHome sends everyone to their own first page.
func (d *Pages) redirectHome(w http.ResponseWriter, r *http.Request) error {
	to := "/sign-in"
	if v, known := session.FindUser(r); known {
		to = homePath(v.Role)
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
	return nil
}

func homePath(role store.Role) string {
	if role == store.Coach {
		return "/desk"
	}
	return "/today"
}

// allowAttempt takes a try from this address and under this name.
func (d *Pages) allowAttempt(r *http.Request, name string) error {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		host = r.RemoteAddr
	}
	if !d.perAddress.Allow(host) || !d.perName.Allow(strings.ToLower(name)) {
		return d.TooMany
	}
	return nil
}
