package whatif

import (
	"context"
	"errors"
	"net/http"

	"breakwright/internal/drill"
	"breakwright/internal/fit"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// handsFitView is the page on which the model guesses at a student's hands.
type handsFitView struct {
	Frame    page.Frame
	Name     string
	Student  string // the address of the student
	Stints   []recentStint
	Progress *jobProgress
	Busy     bool
	Resting  bool
	Estimate *fit.Estimate
}

// findStudent finds the student that the address names.
func (p *Pages) findStudent(r *http.Request) (store.Person, error) {
	return session.FindStudent(r, p.store)
}

// loadFitView reads the student and what can be fitted to.
func (p *Pages) loadFitView(r *http.Request) (handsFitView, error) {
	student, err := p.findStudent(r)
	if err != nil {
		return handsFitView{}, err
	}
	history, err := p.store.GetHistory(r.Context(), session.MustUser(r).Actor, student.ID)
	if err != nil {
		return handsFitView{}, err
	}
	return handsFitView{Name: student.Name, Student: route.StudentPath(student.ID), Stints: listRecentStints(history.Sets)}, nil
}

func (v handsFitView) fitTasks(p *Pages) []computeTask {
	return []computeTask{handsFitTask{v.Stints, p.queue.cache}}
}

func (v handsFitView) countBreaks() int {
	n := 0
	for _, s := range v.Stints {
		n += len(s.Breaks)
	}
	return n
}

// tooFewBreaks reports whether there is not enough to fit to.
func (v handsFitView) tooFewBreaks() bool { return v.countBreaks() < minFitBreaks }

func (p *Pages) showHandsFit(w http.ResponseWriter, r *http.Request) error {
	v, err := p.loadFitView(r)
	if err != nil {
		return err
	}
	if v.Resting = r.URL.Query().Has(fieldRest); !v.tooFewBreaks() && !v.Resting {
		if err := p.estimateHands(r, &v); err != nil {
			return err
		}
	}
	status := http.StatusOK
	if v.Busy {
		status = http.StatusServiceUnavailable
	}
	if page.IsPartial(r) {
		return page.Render(w, r, status, handsFitBody(v))
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, status, handsFitPage(v))
}

// estimateHands fits, or says how far it is.
func (p *Pages) estimateHands(r *http.Request, v *handsFitView) error {
	answers, going, err := p.queue.awaitAnswers(r.Context(), session.MustUser(r).Person.String(), v.fitTasks(p), shortPatience)
	var problems drill.Problems
	switch {
	case errors.Is(err, errQueueFull):
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
		e := answers[0].(fit.Estimate) // handsFitTask.Run gives nothing else
		v.Estimate = &e
	}
	return nil
}

func (p *Pages) stopHandsFit(w http.ResponseWriter, r *http.Request) error {
	v, err := p.loadFitView(r)
	if err != nil {
		return err
	}
	p.queue.leaveJob(session.MustUser(r).Person.String(), v.fitTasks(p))
	p.sessions.SetFlash(w, r, "Stopped. Nothing was kept of it.")
	return page.Redirect(w, r, v.Student+"/fit?"+fieldRest+"=1")
}
