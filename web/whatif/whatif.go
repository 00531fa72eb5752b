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

// whatIfPath is the page's address.
const whatIfPath = "/what-if"

// Pages are the page and what it computes with.
type Pages struct {
	store    *store.Store
	sessions *session.Manager
	queue    *jobQueue
}

// New makes the pages.
func New(s *store.Store, sessions *session.Manager) *Pages {
	return &Pages{store: s, sessions: sessions, queue: newJobQueue(time.Now)}
}

// Routes are the rows of the route table.
func (p *Pages) Routes() []route.Route {
	return []route.Route{
		route.Get(whatIfPath, route.Coach, p.showWhatIf),
		route.Post(whatIfPath+"/stop", route.Coach, p.stopComputing),
		route.Get("/students/{student}/fit", route.Coach, p.showHandsFit),
		route.Post("/students/{student}/fit/stop", route.Coach, p.stopHandsFit),
	}
}

func whatIfHead() page.Head {
	return page.Head{
		Title: "What if", NavPath: whatIfPath, Styles: []string{"css/whatif.css", "css/drawn.css"},
		Scripts: []string{"vendor/htmx-2.0.11.min.js", "js/drawn.js", "js/rack.js", "js/whatif.js"},
	}
}

// stopComputing ends a computation that this coach waits for, and shows the page at rest.
func (p *Pages) stopComputing(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	a := readPageQuery(form)
	if !form.IsValid() {
		return page.Redirect(w, r, whatIfPath)
	}
	p.queue.leaveJob(session.MustUser(r).Person.String(), questionTasks(a.listQuestions()))
	p.sessions.SetFlash(w, r, "Stopped. Nothing was kept of it.")
	to := a.pageAddress() + "&" + fieldRest + "=1"
	if page.IsPartial(r) {
		w.Header().Set("HX-Redirect", to)
		w.WriteHeader(http.StatusNoContent)
		return nil
	}
	return page.Redirect(w, r, to)
}
