package whatif

import (
	"context"
	"errors"
	"net/http"

	"breakwright/internal/drill"
	"breakwright/internal/fit"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"

	"github.com/go-chi/chi/v5"
)

// fitView is the page on which the model guesses at a student's hands.
type fitView struct {
	Frame    page.Frame
	Name     string
	Student  string // the address of the student
	Stints   []stint
	Progress *progress
	Busy     bool
	Resting  bool
	Estimate *fit.Estimate
}

// student finds the student that the address names; a coach is none.
func (p *Pages) student(r *http.Request) (store.Person, error) {
	id, err := store.ParseID[store.PersonID](chi.URLParam(r, "student"))
	if err != nil {
		return store.Person{}, err
	}
	person, err := p.store.GetPerson(r.Context(), session.From(r).Viewer, id)
	if err == nil && person.Role != store.Student {
		err = store.ErrNotFound
	}
	return person, err
}

// fitted reads the student and what can be fitted to.
func (p *Pages) fitted(r *http.Request) (fitView, error) {
	student, err := p.student(r)
	if err != nil {
		return fitView{}, err
	}
	history, err := p.store.GetHistory(r.Context(), session.From(r).Viewer, student.ID)
	if err != nil {
		return fitView{}, err
	}
	return fitView{Name: student.Name, Student: "/students/" + student.ID.String(), Stints: recent(history.Sets)}, nil
}

func (v fitView) task(p *Pages) []task { return []task{fitTask{v.Stints, p.desk.kept}} }

func (v fitView) breaks() int {
	n := 0
	for _, s := range v.Stints {
		n += len(s.Breaks)
	}
	return n
}

// tooFew says that there is not enough to fit to.
func (v fitView) tooFew() bool { return v.breaks() < fewestBreaks }

func (p *Pages) showFit(w http.ResponseWriter, r *http.Request) error {
	v, err := p.fitted(r)
	if err != nil {
		return err
	}
	if v.Resting = r.URL.Query().Has(fieldRest); !v.tooFew() && !v.Resting {
		if err := p.estimate(r, &v); err != nil {
			return err
		}
	}
	status := http.StatusOK
	if v.Busy {
		status = http.StatusServiceUnavailable
	}
	if page.Part(r) {
		return page.Render(w, r, status, fitBody(v))
	}
	v.Frame = p.sessions.Frame(w, r)
	return page.Render(w, r, status, fitPage(v))
}

// estimate fits, or says how far it is.
func (p *Pages) estimate(r *http.Request, v *fitView) error {
	answers, going, err := p.desk.ask(r.Context(), session.From(r).Person.String(), v.task(p), soon)
	var problems drill.Problems
	switch {
	case errors.Is(err, errBusy):
		v.Busy = true
	case errors.Is(err, errStopped) || errors.Is(err, context.Canceled):
		v.Resting = true
	case errors.As(err, &problems):
		v.Stints = nil
	case err != nil:
		return err
	case going != nil:
		v.Progress = going
	default:
		e := answers[0].(fit.Estimate) // fitTask.Run gives nothing else
		v.Estimate = &e
	}
	return nil
}

func (p *Pages) stopFit(w http.ResponseWriter, r *http.Request) error {
	v, err := p.fitted(r)
	if err != nil {
		return err
	}
	p.desk.leave(session.From(r).Person.String(), v.task(p))
	p.sessions.Say(w, r, "Stopped. Nothing was kept of it.")
	return page.See(w, r, v.Student+"/fit?"+fieldRest+"=1")
}
