// Package signin holds the pages before one is in: signing in and out, joining
// with a code, and setting up the first club.
package signin

import (
	"net/http"
	"time"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/web/page"
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

	bucketKey []byte
	now       func() time.Time
}

// New makes the pages. Tries are counted in the store, for people and for
// networks; bucketKey keeps others from choosing whom they are counted with.
func New(s *store.Store, sessions *session.Manager, secrets *account.Hasher, tooMany error, bucketKey []byte, now func() time.Time) *Pages {
	return &Pages{Store: s, Sessions: sessions, Secrets: secrets, TooMany: tooMany, bucketKey: bucketKey, now: now}
}

// Routes are the sign-in's rows of the route table.
func (d *Pages) Routes() []route.Route {
	return []route.Route{
		route.Get("/", route.Anyone, d.redirectHome),
		route.Get("/sign-in", route.Anyone, d.showSignIn),
		route.Post("/sign-in", route.Anyone, d.signIn),
		route.Get("/sign-in/step", route.Anyone, d.showStep),
		route.Post("/sign-in/step", route.Anyone, d.takeStep),
		route.Post("/sign-out", route.Anyone, d.signOut),
		route.Get("/join", route.Anyone, d.showCodeForm),
		route.Post("/join", route.Anyone, d.submitCode),
		route.Get("/join/{code}", route.Anyone, d.showJoinForm),
		route.Post("/join/{code}", route.Anyone, d.joinClub),
		route.Get("/invite/{token}", route.Anyone, d.showInvite),
		route.Post("/invite/{token}", route.Anyone, d.acceptInvite),
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

// maxFormBytes bounds what is read before anyone is known.
const maxFormBytes = 16 << 10

// readForm reads a form of somebody who is not known yet.
func readForm(w http.ResponseWriter, r *http.Request) (*page.Form, error) {
	r.Body = http.MaxBytesReader(w, r.Body, maxFormBytes)
	return page.ReadForm(w, r)
}
