// Package leave holds the page about what a student's breaks leave: the share of
// breaks with a shot, where the lowest ball lay and from where it could be
// pocketed, which cue-ball window would give more shots, and which two balls of
// the rack might change places. Coach and student see the same.
//
// It computes nothing itself: shots are package leave's under internal, rack plans
// package rackplan's.
package leave

import (
	"net/http"

	"breakwright/internal/store"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Pages are these pages.
type Pages struct {
	store    *store.Store
	sessions *session.Manager
}

// New makes them.
func New(s *store.Store, sessions *session.Manager) *Pages { return &Pages{s, sessions} }

// Routes are the rows of the route table.
func (p *Pages) Routes() []route.Route {
	return []route.Route{
		route.Get("/students/{student}/leave", route.Coach, p.showStudent),
		route.Get("/my/leave", route.Student, p.showOwn),
	}
}

func (p *Pages) showStudent(w http.ResponseWriter, r *http.Request) error {
	student, err := session.FindStudent(r, p.store)
	if err != nil {
		return err
	}
	path := route.StudentPath(student.ID)
	return p.render(w, r, leaveView{Name: student.Name, Back: path, Path: path + "/leave"}, student.ID)
}

func (p *Pages) showOwn(w http.ResponseWriter, r *http.Request) error {
	v := leaveView{Own: true, Back: "/my/progress", Path: "/my/leave"}
	return p.render(w, r, v, session.MustUser(r).Person)
}
