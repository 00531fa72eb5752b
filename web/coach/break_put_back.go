package coach

import (
	"net/http"
	"slices"
	"strconv"

	"github.com/a-h/templ"

	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// putBackAction puts a struck break back, or says why it cannot be.
func (v recordedSetView) putBackAction(b store.StruckBreak) templ.Component {
	if slices.ContainsFunc(v.Set.Breaks, func(now store.Break) bool { return now.Number == b.Number }) {
		return numberTakenNote(b.Number)
	}
	return putBackForm(putBackPath(v.Set), b)
}

func putBackPath(set store.Set) string { return "/sets/" + set.ID.String() + "/put-back" }

// newPutBackUndo is the button beside the message that a break was struck.
func newPutBackUndo(set store.Set, b store.Break) *page.UndoForm {
	return &page.UndoForm{
		Path: putBackPath(set), About: "break " + strconv.Itoa(b.Number) + " struck out",
		Fields: []page.HiddenField{{Name: fieldBreak, Value: b.ID.String()}},
	}
}

// putBreakBack puts a break back that was taken out.
func (p *Pages) putBreakBack(w http.ResponseWriter, r *http.Request) error {
	set, form, err := page.ReadFormOf(w, r, p.findSet)
	if err != nil {
		return err
	}
	id, err := store.ParseID[store.BreakID](form.Text(fieldBreak))
	if err != nil {
		return err
	}
	err = p.store.PutBreakBack(r.Context(), session.MustUser(r).Actor, set.ID, id, setreview.JudgeCase)
	if words := store.SentenceOf(err); words != "" {
		form.Reject(fieldBreak, words)
		return p.renderSet(w, r, http.StatusConflict, set, form)
	}
	if form.AddProblems(err) {
		return p.renderSet(w, r, http.StatusUnprocessableEntity, set, form)
	}
	if err != nil {
		return err
	}
	p.sessions.SetFlash(w, r, "The break counts again. "+set.StudentName+" sees that it was out, and why.")
	return page.Redirect(w, r, "/sets/"+set.ID.String())
}
