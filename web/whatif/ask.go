package whatif

import (
	"context"
	"errors"
	"net/http"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/whatif"
	"breakwright/web/page"
	"breakwright/web/session"
)

// How long an address waits for its answer before it says how far it is.
const (
	soon = 900 * time.Millisecond
	// plain is for a small question on a whole page, which may have no script to
	// ask again: three hundred breaks take a fraction of it.
	plain       = 10 * time.Second
	smallBreaks = 600
)

// view is the page.
type view struct {
	Frame page.Frame
	Form  *page.Form
	Ask   ask
	// One of these says what stands where the answer goes; none of them while
	// nothing was computed.
	Seen     *seen
	Progress *progress
	Busy     bool
}

// ask answers the page's address.
func (p *Pages) ask(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	if began, a, err := p.beginWith(r, form); err != nil {
		return err
	} else if began {
		return page.See(w, r, a.address())
	}
	v := view{Form: form, Ask: readAsk(form)}
	switch {
	case !form.OK():
		return p.render(w, r, http.StatusUnprocessableEntity, v)
	case form.Has(fieldRest):
		return p.render(w, r, http.StatusOK, v)
	}
	moved := press(form, &v.Ask)
	if followed(form, v.Ask.Now) || moved {
		return p.moveOn(w, r, v)
	}
	if err := p.answer(r, &v); err != nil {
		return err
	}
	return p.render(w, r, statusOf(v), v)
}

func statusOf(v view) int {
	if v.Busy {
		return http.StatusServiceUnavailable
	}
	return http.StatusOK
}

// answer computes, or says why not yet.
func (p *Pages) answer(r *http.Request, v *view) error {
	questions := v.Ask.questions()
	patience, breaks := soon, 0
	for _, q := range questions {
		breaks += q.Breaks
	}
	if !page.Part(r) && breaks <= smallBreaks {
		patience = plain
	}
	answers, going, err := p.desk.ask(r.Context(), session.From(r).Person.String(), tasksOf(questions), patience)
	switch {
	case errors.Is(err, errBusy):
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
	v.Seen, err = newSeen(v.Ask, answersOf(answers))
	return err
}

// press does what a button of the form says, and says whether it did anything.
func press(form *page.Form, a *ask) (moved bool) {
	switch form.Text(fieldDo) {
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
		a.Now.Setup.Order = a.Now.Setup.Game.Practice(a.Now.Setup.Side)
	case "shuffle":
		a.Now.Setup.Order = shuffled(a.Now.Setup)
	default:
		return false
	}
	a.Show = -1
	return true
}

// followed says whether the question is not the one that the form showed.
func followed(form *page.Form, q whatif.Question) bool {
	shownAs := fill(q)
	for before, now := range map[string]string{shownSide: fieldSide, shownGame: fieldGame, shownFeet: fieldFeet} {
		if was := form.Text(before); was != "" && was != shownAs.Get(now) {
			return true
		}
	}
	return false
}

// moveOn goes to the address of what is now asked; within the page, the whole of
// it is drawn anew.
func (p *Pages) moveOn(w http.ResponseWriter, r *http.Request, v view) error {
	if !page.Part(r) {
		return page.See(w, r, v.Ask.address())
	}
	v.Form = &page.Form{Values: v.Ask.values()}
	if err := p.answer(r, &v); err != nil {
		return err
	}
	h := w.Header()
	h.Set("HX-Retarget", "#what-if")
	h.Set("HX-Reswap", "outerHTML")
	h.Set("HX-Push-Url", v.Ask.address())
	return page.Render(w, r, statusOf(v), body(v))
}

// render shows the page, or the parts that follow the fields.
func (p *Pages) render(w http.ResponseWriter, r *http.Request, status int, v view) error {
	if !v.Form.OK() {
		v.Ask.Now.Setup = drawable(v.Ask.Now)
	}
	if page.Part(r) {
		if v.Form.OK() {
			w.Header().Set("HX-Push-Url", v.Ask.address())
		}
		return page.Render(w, r, status, updates(v))
	}
	v.Frame = p.sessions.Frame(w, r)
	return page.Render(w, r, status, whatIfPage(v))
}

// drawable is a setup that can be drawn while something typed cannot be.
func drawable(q whatif.Question) drill.Setup {
	if q.Setup.Check(q.Kind) == nil {
		return q.Setup
	}
	return drill.Standard(q.Setup.Game, q.Setup.Side, q.Kind)
}

// question is a task of the desk.
type question struct{ whatif.Question }

func (q question) Breaks() int { return q.Question.Breaks }
func (q question) Weight() int { return q.Question.Breaks }

func (q question) Run(ctx context.Context, progress func(int)) (any, error) {
	return whatif.Run(ctx, q.Question, progress)
}

func tasksOf(questions []whatif.Question) []task {
	tasks := make([]task, len(questions))
	for i, q := range questions {
		tasks[i] = question{q}
	}
	return tasks
}

func answersOf(all []any) []whatif.Answer {
	answers := make([]whatif.Answer, len(all))
	for i, a := range all {
		answers[i] = a.(whatif.Answer) // question.Run gives nothing else
	}
	return answers
}
