package student

import (
	"net/http"

	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/record"
	"breakwright/web/route"
	"breakwright/web/session"
)

// setMoveView is an open set with the places where it may really be broken.
type setMoveView struct {
	Frame page.Frame
	Move  component.SetMoveForm
	Set   store.Set
	When  string
}

// showSetMove asks where a set belongs that was begun on the wrong table or drill.
func (p *Pages) showSetMove(w http.ResponseWriter, r *http.Request) error {
	set, err := p.findOwnSet(r)
	if err != nil {
		return err
	}
	return p.renderSetMove(w, r, http.StatusOK, set, nil)
}

// renderSetMove shows the form as it was typed; nil for a new one.
func (p *Pages) renderSetMove(w http.ResponseWriter, r *http.Request, status int, set store.Set, typed *page.Form) error {
	user := session.MustUser(r)
	today, err := p.store.GetToday(r.Context(), user.Actor)
	if err != nil {
		return err
	}
	v := setMoveView{
		Frame: p.sessions.TakeFrame(w, r), Set: set, When: formatTime(set.Started, user.Zone),
		Move: component.NewSetMoveForm(set, today.Tables, today.Tasks, route.OwnSetPath(set.ID)),
	}
	v.Move.Back = record.WholeSetPath(set)
	if typed != nil {
		v.Move.Form = typed
	}
	return page.Render(w, r, status, setMovePage(v))
}

// moveSet moves it; the next break is one of the drill and the table chosen.
func (p *Pages) moveSet(w http.ResponseWriter, r *http.Request) error {
	set, form, err := page.ReadFormOf(w, r, p.findOwnSet)
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
	p.sessions.SetFlash(w, r, "The set is where you break it.")
	return page.Redirect(w, r, record.WholeSetPath(set))
}
