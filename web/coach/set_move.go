package coach

import (
	"net/http"

	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// setMoveView is a set with the places where it may really have been broken.
type setMoveView struct {
	Frame page.Frame
	Move  component.SetMoveForm
	Set   store.Set
	When  string
}

// showSetMove asks where a set belongs that was begun on the wrong table or drill.
func (p *Pages) showSetMove(w http.ResponseWriter, r *http.Request) error {
	set, err := p.findSet(r)
	if err != nil {
		return err
	}
	return p.renderSetMove(w, r, http.StatusOK, set, nil)
}

// renderSetMove shows the form as it was typed; nil for a new one.
func (p *Pages) renderSetMove(w http.ResponseWriter, r *http.Request, status int, set store.Set, typed *page.Form) error {
	user := session.MustUser(r)
	tables, err := p.store.ListTables(r.Context(), user.Actor, store.ActiveOnly)
	if err != nil {
		return err
	}
	tasks, err := p.store.ListTasksOf(r.Context(), user.Actor, set.Student)
	if err != nil {
		return err
	}
	v := setMoveView{
		Frame: p.sessions.TakeFrame(w, r), Set: set, When: formatTime(set.Started, user.Zone),
		Move: component.NewSetMoveForm(set, tables, tasks, route.SetPath(set.ID)),
	}
	if typed != nil {
		v.Move.Form = typed
	}
	return page.Render(w, r, status, setMovePage(v))
}

// moveSet moves it, and what it says is worked out anew.
func (p *Pages) moveSet(w http.ResponseWriter, r *http.Request) error {
	set, form, err := page.ReadFormOf(w, r, p.findSet)
	if err != nil {
		return err
	}
	to, err := component.ReadSetMove(form)
	if err != nil {
		return err
	}
	err = p.store.MoveSet(r.Context(), session.MustUser(r).Actor, set.ID, to, setreview.JudgeCase)
	if words := store.SentenceOf(err); words != "" {
		component.RefuseSetMove(form, words)
		return p.renderSetMove(w, r, http.StatusConflict, set, form)
	}
	if err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "The set is moved; what it says is worked out anew.")
	return page.Redirect(w, r, route.SetPath(set.ID))
}
