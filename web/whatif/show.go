package whatif

import (
	"context"
	"errors"
	"net/http"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/whatif"
	"breakwright/web/page"
	"breakwright/web/session"
)

// How long an address waits for its answer before it says how far it is.
const (
	shortPatience = 900 * time.Millisecond
	// longPatience is for a small question on a whole page, which may have no script to
	// ask again: three hundred breaks take a fraction of it.
	longPatience    = 10 * time.Second
	smallBreakCount = 600
)

// whatIfView is the page.
type whatIfView struct {
	Frame page.Frame
	Form  *page.Form
	Query pageQuery
	// One of these says what stands where the answer goes; none of them while
	// nothing was computed.
	Results  *resultsView
	Progress *jobProgress
	Busy     bool
}

// showWhatIf answers the page's address.
func (p *Pages) showWhatIf(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	if began, a, err := p.beginFromOrigin(r, form); err != nil {
		return err
	} else if began {
		return page.Redirect(w, r, a.pageAddress())
	}
	v := whatIfView{Form: form, Query: readPageQuery(form)}
	switch {
	case !form.IsValid():
		return p.renderWhatIf(w, r, http.StatusUnprocessableEntity, v)
	case form.Has(fieldRest):
		return p.renderWhatIf(w, r, http.StatusOK, v)
	}
	moved := applyButton(form, &v.Query)
	if choicesChanged(form, v.Query.Now) || moved {
		return p.redirectToQuery(w, r, v)
	}
	if err := p.computeAnswer(r, &v); err != nil {
		return err
	}
	return p.renderWhatIf(w, r, viewStatus(v), v)
}

func viewStatus(v whatIfView) int {
	if v.Busy {
		return http.StatusServiceUnavailable
	}
	return http.StatusOK
}

// computeAnswer computes, or says why not yet.
func (p *Pages) computeAnswer(r *http.Request, v *whatIfView) error {
	questions := v.Query.listQuestions()
	patience, breaks := shortPatience, 0
	for _, q := range questions {
		breaks += q.Breaks
	}
	if !page.IsPartial(r) && breaks <= smallBreakCount {
		patience = longPatience
	}
	answers, going, err := p.queue.awaitAnswers(r.Context(), session.MustUser(r).Person.String(), questionTasks(questions), patience)
	switch {
	case errors.Is(err, errQueueFull):
		v.Busy = true
		return nil
	case errors.Is(err, errStopped) || errors.Is(err, context.Canceled):
		return nil // by the same coach in another window, or nobody reads this
	case err != nil:
		return err
	case going != nil:
		v.Progress = going
		return nil
	}
	v.Results, err = newResultsView(v.Query, questionAnswers(answers), say.UnitsOf(r.Context()))
	return err
}

// applyButton does what a button of the form says, and reports whether it did anything.
func applyButton(form *page.Form, a *pageQuery) (moved bool) {
	switch form.Text(fieldButton) {
	case "hold":
		now := a.Now
		a.Was = &now
	case "forget":
		a.Was = nil
	case "back":
		if a.Was != nil {
			a.Now, a.Was = *a.Was, &a.Now
		}
	case "practice":
		a.Now.Setup.Order = a.Now.Setup.Game.PracticeOrder(a.Now.Setup.Side)
	case "shuffle":
		a.Now.Setup.Order = shuffledOrder(a.Now.Setup)
	default:
		return false
	}
	a.Show = -1
	return true
}

// choicesChanged reports whether the question is not the one that the form showed.
func choicesChanged(form *page.Form, q whatif.Question) bool {
	shownAs := questionValues(q, form.Units)
	for before, now := range map[string]string{shownSide: fieldSide, shownGame: fieldGame, shownFeet: fieldFeet} {
		if was := form.Text(before); was != "" && was != shownAs.Get(now) {
			return true
		}
	}
	return false
}

// redirectToQuery goes to the address of what is now asked; within the page, the whole of
// it is drawn anew.
func (p *Pages) redirectToQuery(w http.ResponseWriter, r *http.Request, v whatIfView) error {
	if !page.IsPartial(r) {
		return page.Redirect(w, r, v.Query.pageAddress())
	}
	v.showInUnits(say.UnitsOf(r.Context()))
	if err := p.computeAnswer(r, &v); err != nil {
		return err
	}
	h := w.Header()
	h.Set("HX-Retarget", "#what-if")
	h.Set("HX-Reswap", "outerHTML")
	h.Set("HX-Push-Url", v.Query.pageAddress())
	return page.Render(w, r, viewStatus(v), whatIfBody(v))
}

// showInUnits fills the form with what is asked, in the units of who reads.
func (v *whatIfView) showInUnits(u say.Units) {
	values := v.Query.queryValues()
	for name, value := range questionValues(v.Query.Now, u) {
		values[name] = value
	}
	v.Form = &page.Form{Values: values, Units: u}
}

// renderWhatIf shows the page, or the parts that follow the fields.
func (p *Pages) renderWhatIf(w http.ResponseWriter, r *http.Request, status int, v whatIfView) error {
	if !v.Form.IsValid() {
		v.Query.Now.Setup = drawableSetup(v.Query.Now)
	} else if u := say.UnitsOf(r.Context()); v.Form.Units != u {
		v.showInUnits(u)
	}
	if page.IsPartial(r) {
		if v.Form.IsValid() {
			w.Header().Set("HX-Push-Url", v.Query.pageAddress())
		}
		return page.Render(w, r, status, whatIfUpdates(v))
	}
	v.Frame = p.sessions.TakeFrame(w, r)
	return page.Render(w, r, status, whatIfPage(v))
}

// drawableSetup is a setup that can be drawn while something typed cannot be.
func drawableSetup(q whatif.Question) drill.Setup {
	if q.Setup.Check(q.Kind) == nil {
		return q.Setup
	}
	return drill.StandardSetup(q.Setup.Game, q.Setup.Side, q.Kind)
}

// questionTask is a task of the desk.
type questionTask struct{ whatif.Question }

func (q questionTask) CountBreaks() int { return q.Question.Breaks }
func (q questionTask) CacheWeight() int { return q.Question.Breaks }

func (q questionTask) Run(ctx context.Context, progress func(int)) (any, error) {
	return whatif.RunBreaks(ctx, q.Question, progress)
}

func questionTasks(questions []whatif.Question) []computeTask {
	tasks := make([]computeTask, len(questions))
	for i, q := range questions {
		tasks[i] = questionTask{q}
	}
	return tasks
}

func questionAnswers(all []any) []whatif.Answer {
	answers := make([]whatif.Answer, len(all))
	for i, a := range all {
		answers[i] = a.(whatif.Answer) // question.Run gives nothing else
	}
	return answers
}
