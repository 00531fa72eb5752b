// Package coach holds the coach's pages about what students broke: the desk,
// a set break by break, and the decision on a prescription.
package coach

import (
	"net/http"
	"time"

	"breakwright/internal/store"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Pages are the coach's pages.
type Pages struct {
	store    *store.Store
	sessions *session.Manager
	now      func() time.Time
}

// New makes them; now is the clock that due days are compared with.
func New(s *store.Store, sessions *session.Manager, now func() time.Time) *Pages {
	return &Pages{store: s, sessions: sessions, now: now}
}

// Routes are the rows of the route table.
func (p *Pages) Routes() []route.Route {
	return []route.Route{
		route.Get("/desk", route.Coach, p.showDesk),
		route.Post("/desk/seen", route.Coach, p.dismissLine),
		route.Post("/desk/approve", route.Coach, p.approveTogether),
		route.Post("/desk/reopen", route.Coach, p.reopenTogether),
		route.Post("/students/{student}/free", route.Coach, p.freeStudent),
		route.Get("/sets/{set}", route.Coach, p.showSet),
		route.Post("/sets/{set}/messages", route.Coach, p.postMessage),
		route.Post("/sets/{set}/correct", route.Coach, p.correctBreak),
		route.Post("/sets/{set}/put-back", route.Coach, p.putBreakBack),
		route.Get("/sets/{set}/move", route.Coach, p.showSetMove),
		route.Post("/sets/{set}/move", route.Coach, p.moveSet),
		route.Get("/prescriptions/{prescription}", route.Coach, p.showPrescription),
		route.Post("/prescriptions/{prescription}/reopen", route.Coach, p.reopenDecision),
		route.Get("/sets/{set}/change", route.Coach, p.showOwnChange),
		route.Post("/sets/{set}/change", route.Coach, p.decideOwnChange),
		route.Get("/students/{student}/change", route.Coach, p.findChangePlace),
		route.Get("/decided", route.Coach, p.listDecided),
		route.Post("/prescriptions/{prescription}", route.Coach, p.decidePrescription),
	}
}

// findSet finds a set of the club.
func (p *Pages) findSet(r *http.Request) (store.Set, error) {
	return session.FindNamed(r, "set", p.store.GetSet)
}
