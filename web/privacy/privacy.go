// Package privacy holds the pages about what the club keeps of people: a plain
// page that says so, the audit log, a person's all and the club's as a file, and erasing a
// student, a coach who was removed, or the whole club.
//
// Which requests stand in the audit log is said in place.go, by route; package
// web writes them down.
package privacy

import (
	"net/http"
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
	now      func() time.Time
}

// New makes them.
func New(s *store.Store, sessions *session.Manager, secret session.SecretCheck, now func() time.Time) *Pages {
	return &Pages{store: s, sessions: sessions, secret: secret, now: now}
}

// Routes are the rows of the route table.
func (p *Pages) Routes() []route.Route {
	return []route.Route{
		route.Get("/privacy", route.Anyone, p.showPrivacy),
		route.Get("/audit", route.Coach, p.showAudit),
		route.Get("/students/{student}/everything", route.Coach, p.sendEverything).At(route.Download),
		route.Get("/my/everything", route.Student, p.sendOwnEverything).At(route.Download),
		route.Get("/students/{student}/erase", route.Coach, p.showEraseStudent),
		route.Post("/students/{student}/erase", route.Coach, p.eraseStudent),
		route.Get("/club/file", route.Coach, p.showClubFile),
		route.Get("/club/file.zip", route.Coach, p.sendClubFile).At(route.Download),
		route.Get("/club/coaches/{coach}/erase", route.Coach, p.showEraseCoach),
		route.Post("/club/coaches/{coach}/erase", route.Coach, p.eraseCoach),
		route.Get("/club/erase", route.Coach, p.showEraseClub),
		route.Post("/club/erase", route.Coach, p.eraseClub),
	}
}

// actor is who asks.
func actor(r *http.Request) store.Actor { return session.MustUser(r).Actor }
