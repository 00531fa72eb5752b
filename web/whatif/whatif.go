// Package whatif is the coach's page on which a setting is tried in the model
// of a break: the cue ball, the stroke, the rack, the table and the breaker's
// hands are typed or dragged, a few hundred breaks are computed, and the page
// shows where the balls went, alone or beside another setting. Beside it stands
// the page on which the model guesses at a student's hands from their breaks.
//
// It knows how such a question is typed, how answers are kept and how many may
// be computed at a time. What a chance is, it leaves to internal/whatif; and it
// never speaks of a real table.
//
// A question is an address: the same address shows the same page. Lengths are
// typed in inches, as on the drill's page: across the table from the long
// string, along it behind the head string.
package whatif

import (
	"net/http"
	"time"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// path is the page's address.
const path = "/what-if"

// Pages are the page and what it computes with.
type Pages struct {
	store    *store.Store
	sessions *session.Keeper
	desk     *desk
}

// New makes the pages.
func New(s *store.Store, sessions *session.Keeper) *Pages {
	return &Pages{store: s, sessions: sessions, desk: newDesk(time.Now)}
}

// Routes are the rows of the route table.
func (p *Pages) Routes() []route.Route {
	return []route.Route{
		route.Get(path, route.Coach, p.ask),
		route.Post(path+"/stop", route.Coach, p.stop),
		route.Get("/students/{student}/fit", route.Coach, p.showFit),
		route.Post("/students/{student}/fit/stop", route.Coach, p.stopFit),
	}
}

func head() page.Head {
	return page.Head{
		Title: "What if", Here: path, Styles: []string{"css/whatif.css"},
		Scripts: []string{"vendor/htmx-2.0.11.min.js", "js/whatif.js"},
	}
}

// stop ends a computation that this coach waits for, and shows the page at rest.
func (p *Pages) stop(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	a := readAsk(form)
	if !form.OK() {
		return page.See(w, r, path)
	}
	p.desk.leave(session.From(r).Person.String(), tasksOf(a.questions()))
	p.sessions.Say(w, r, "Stopped. Nothing was kept of it.")
	to := a.address() + "&" + fieldRest + "=1"
	if page.Part(r) {
		w.Header().Set("HX-Redirect", to)
		w.WriteHeader(http.StatusNoContent)
		return nil
	}
	return page.See(w, r, to)
}
