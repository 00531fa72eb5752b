package student

import (
	"net/http"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// ownWordBackWords says to the student what they said; "" for nothing.
func ownWordBackWords(w store.WordBack) string {
	switch w {
	case store.FeltWrong:
		return "You said that this felt wrong. Your coach sees it."
	case store.Hurts:
		return "You said that it hurts: stop breaking for now. No program can judge pain; have somebody qualified look at it, a doctor or a physiotherapist, before you break again. Your coach sees this at once."
	case store.Done:
		return "You said that this is done. Your coach sees it."
	}
	return ""
}

// hurts reports whether the student said that it hurts: nothing on the page then leads to
// the next break.
func (v recordedSetView) hurts() bool { return v.Set.WordBack == store.Hurts }

// hurtPath is where "it hurts" stands and is taken back, "" when it does not stand.
func hurtPath(today store.Today) string {
	if store.IsZero(today.Hurt) {
		return ""
	}
	return route.OwnSetPath(today.Hurt) + "#word"
}

// fieldOver is where who said that it hurts says that it is over.
const fieldOver = "over"

// sayStillHurts is beside the field where it is not said.
const sayStillHurts = "say that it no longer hurts before you break again"

// asksToStop reports whether "it hurts" stands and the form that starts a set does not
// say that it is over.
func asksToStop(hurt string, form *page.Form) bool { return hurt != "" && form.Text(fieldOver) == "" }

// sayWordBack keeps a quick word on what the set was told; an empty one takes it
// back.
func (p *Pages) sayWordBack(w http.ResponseWriter, r *http.Request) error {
	set, form, err := page.ReadFormOf(w, r, p.findOwnSet)
	if err != nil {
		return err
	}
	err = p.store.SayWordBack(r.Context(), session.MustUser(r).Actor, set.ID, store.WordBack(form.Text("word")))
	if form.AddProblems(err) {
		return p.renderSet(w, r, http.StatusUnprocessableEntity, set, form)
	}
	if err != nil {
		return err
	}
	return page.Redirect(w, r, route.OwnSetPath(set.ID)+"#word")
}
