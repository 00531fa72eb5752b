// Package club holds the pages by which people and a club look after
// themselves: one's own passphrase or PIN, sessions, second step, light or dark
// pages and a student's own units under /account; the club's name, zone, units and coaches under
// /club.
package club

import (
	"net/http"
	"strings"
	"time"

	"breakwright/internal/store"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Pages are these pages.
type Pages struct {
	store    *store.Store
	sessions *session.Manager
	secret   session.SecretCheck
	url      string // the public address, without a slash at its end
	now      func() time.Time
}

// New makes them; url is the public address that invitations lead to.
func New(s *store.Store, sessions *session.Manager, secret session.SecretCheck, url string, now func() time.Time) *Pages {
	return &Pages{
		store: s, sessions: sessions, secret: secret, url: strings.TrimRight(url, "/"), now: now,
	}
}

// Routes are the rows of the route table.
func (p *Pages) Routes() []route.Route {
	return []route.Route{
		route.Get("/account", route.Member, p.showAccount),
		route.Post("/account/secret", route.Member, p.changeSecret),
		route.Post("/account/theme", route.Member, p.chooseTheme),
		route.Post("/account/units", route.Student, p.chooseUnits),
		route.Post("/account/sessions/end", route.Member, p.endSession),
		route.Post("/account/sessions/end-others", route.Member, p.endOtherSessions),
		route.Get("/account/step", route.Coach, p.showStep),
		route.Post("/account/step", route.Coach, p.beginStep),
		route.Get("/account/step/codes", route.Coach, p.showNewCodesForm),
		route.Post("/account/step/codes", route.Coach, p.makeNewCodes),
		route.Post("/account/step/confirm", route.Coach, p.confirmStep),
		route.Post("/account/step/drop", route.Coach, p.dropStep),
		route.Get("/club", route.Coach, p.showClub),
		route.Post("/club", route.Coach, p.changeClub),
		route.Post("/club/invites", route.Coach, p.inviteCoach),
		route.Post("/club/invites/withdraw", route.Coach, p.withdrawInvite),
		route.Post("/club/coaches/{coach}/remove", route.Coach, p.removeCoach),
		route.Post("/club/coaches/{coach}/restore", route.Coach, p.restoreCoach),
		route.Post("/club/coaches/{coach}/free", route.Coach, p.freeCoach),
	}
}

// actor is who asks.
func actor(r *http.Request) store.Actor { return session.MustUser(r).Actor }
