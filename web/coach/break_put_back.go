package coach

import (
	"net/http"
	"slices"
	"strconv"

	"github.com/a-h/templ"

	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// fieldWas carries the revision that a break is put back to.
const fieldWas = "was"

// setBackReason is why a correction that is taken back was one.
const setBackReason = "set back to what was recorded"

// putBackAction puts a break back as it stands in a line of the history, or says why it
// cannot be; nil where there is nothing to put back.
func (v recordedSetView) putBackAction(b store.StruckBreak) templ.Component {
	switch {
	case b.IsOut() && slices.ContainsFunc(v.Set.Breaks, func(now store.Break) bool { return now.Number == b.Number }):
		return numberTakenNote(b.Number)
	case b.IsOut() || v.isLastCorrection(b):
		undo := newPutBackUndo(v.Set, b.Break)
		undo.Words = "Put back"
		return page.UndoButton(*undo)
	}
	return nil
}

// isLastCorrection reports whether this is what a break was before a coach changed it last.
func (v recordedSetView) isLastCorrection(b store.StruckBreak) bool {
	isAfter := func(now store.Break) bool { return now.ID == b.ID && now.Revision == b.Revision+1 }
	return b.Corrected && !store.IsZero(b.By) && slices.ContainsFunc(v.Set.Breaks, isAfter)
}

// newPutBackUndo is the button that puts a break back as it was at its revision.
func newPutBackUndo(set store.Set, was store.Break) *page.UndoForm {
	return &page.UndoForm{
		Path: route.SetPath(set.ID) + "/put-back", About: "what was done to break " + strconv.Itoa(was.Number),
		Fields: []page.HiddenField{{Name: fieldBreak, Value: was.ID.String()}, {Name: fieldWas, Value: strconv.Itoa(was.Revision)}},
	}
}

// putBreakBack puts a break back that was taken out, or as it was before a correction.
func (p *Pages) putBreakBack(w http.ResponseWriter, r *http.Request) error {
	set, form, err := page.ReadFormOf(w, r, p.findSet)
	if err != nil {
		return err
	}
	id, err := store.ParseID[store.BreakID](form.Text(fieldBreak))
	if err != nil {
		return err
	}
	err = p.putBack(r, set, id, form.Text(fieldWas))
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
	p.sessions.SetFlash(w, r, "The break counts again as it was. "+set.StudentName+" sees what was done to it, and why.")
	return page.Redirect(w, r, route.SetPath(set.ID))
}

// putBack puts back what was taken out, and corrects what was changed to what it was at a
// revision, unless it was changed again since.
func (p *Pages) putBack(r *http.Request, set store.Set, id store.BreakID, was string) error {
	coach := session.MustUser(r).Actor
	if !slices.ContainsFunc(set.Breaks, func(b store.Break) bool { return b.ID == id }) {
		return p.store.PutBreakBack(r.Context(), coach, set.ID, id, setreview.JudgeCase)
	}
	history, err := p.store.ListStruckBreaks(r.Context(), coach, set.ID)
	if err != nil {
		return err
	}
	i := slices.IndexFunc(history, func(b store.StruckBreak) bool { return b.ID == id && strconv.Itoa(b.Revision) == was })
	if i < 0 || history[i].IsBack {
		return nil // it is back already
	}
	return p.store.CorrectBreak(r.Context(), coach, store.BreakCorrection{
		Set: set.ID, Break: id, Revision: history[i].Revision + 1, As: &history[i].Break.Break, Reason: setBackReason,
	}, setreview.JudgeCase)
}
