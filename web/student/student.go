// Package student holds a student's pages away from the table: today's drills,
// one drill before the first break, and a set with what it says.
package student

import (
	"net/http"
	"time"

	"breakwright/internal/store"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Pages are the student's pages.
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
		route.Get("/today", route.Student, p.showToday),
		route.Get("/today/{assignment}", route.Student, p.showDrill),
		route.Post("/today/{assignment}", route.Student, p.startSet),
		route.Get(trainingPath, route.Student, p.showTrainings),
		route.Get(trainingPath+"/{from}", route.Student, p.showTraining),
		route.Post(trainingPath+"/{from}", route.Student, p.startTraining),
		route.Get("/my/sets", route.Student, p.listSets),
		route.Get("/my/sets/{set}", route.Student, p.showSet),
		route.Get("/my/sets/{set}/move", route.Student, p.showSetMove),
		route.Post("/my/sets/{set}/move", route.Student, p.moveSet),
		route.Post("/my/messages/{message}/read", route.Student, p.readMessage),
		route.Post("/my/sets/{set}/messages", route.Student, p.postMessage),
		route.Post("/my/sets/{set}/word", route.Student, p.sayWordBack),
	}
}

// findOwnSet finds the user's own set.
func (p *Pages) findOwnSet(r *http.Request) (store.Set, error) {
	return session.FindNamed(r, "set", p.store.GetSet)
}
