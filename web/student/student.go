// Package student holds a student's pages away from the table: today's drills,
// one drill before the first break, and a set with what it says.
package student

import (
	"fmt"
	"net/http"
	"time"

	"breakwright/internal/say"
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
		route.Post("/my/sets/{set}/messages", route.Student, p.postMessage),
		route.Post("/my/sets/{set}/word", route.Student, p.sayWordBack),
	}
}

// findOwnSet finds the visitor's own set.
func (p *Pages) findOwnSet(r *http.Request) (store.Set, error) {
	return session.FindNamed(r, "set", p.store.GetSet)
}

// isPast reports whether a due day is over, seen from a day in the club's zone; none
// never is. due is midnight UTC of the day, or zero.
func isPast(due, now time.Time) bool { return !due.IsZero() && due.Before(midnightOf(now)) }

// midnightOf is the day of a moment in its zone, as due days are kept: midnight UTC.
func midnightOf(now time.Time) time.Time {
	return time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)
}

// dueDayWords says when something is due, seen from a day in the club's zone.
// due is midnight UTC of the day, or zero.
func dueDayWords(due, now time.Time) string {
	if due.IsZero() {
		return ""
	}
	switch days := int(due.Sub(midnightOf(now)).Hours() / 24); {
	case days < -1:
		return fmt.Sprintf("was due %d days ago", -days)
	case days == -1:
		return "was due yesterday"
	case days == 0:
		return "due today"
	case days == 1:
		return "due tomorrow"
	case days < 7:
		return "due " + due.Format("Monday")
	}
	return "due " + say.Weekday(due)
}
