package coach

import (
	"net/http"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// dismissLine takes a line off the desk, for each student it is about; with
// "undo" it puts it back.
func (p *Pages) dismissLine(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	actor, apply, words := session.MustUser(r).Actor, p.store.DismissDeskLine, "Noted. It will not be shown again."
	line := store.DismissedLine{Reason: store.DismissReason(form.Text("reason")), About: form.Text("about")}
	undo := restoreForm(line, "show it again")
	if form.Has("undo") {
		apply, words, undo = p.store.RestoreDeskLine, "It is on the desk again.", nil
	}
	for _, student := range form.Values["student"] {
		if line.Student, err = store.ParseID[store.PersonID](student); err != nil {
			return err
		}
		if err := apply(r.Context(), actor, line); err != nil {
			return err
		}
		if undo != nil {
			undo.Fields = append(undo.Fields, page.HiddenField{Name: "student", Value: student})
		}
	}
	if page.IsPartial(r) {
		return page.Render(w, r, http.StatusOK, settledRow(words, undo))
	}
	p.sessions.SetFlashWithUndo(w, r, words, undo)
	return page.Redirect(w, r, "/desk")
}

// restoreForm puts a line on the desk again; the fields of its students are to be added.
func restoreForm(line store.DismissedLine, about string) *page.UndoForm {
	return &page.UndoForm{Path: "/desk/seen", About: about, Fields: []page.HiddenField{
		{Name: "reason", Value: string(line.Reason)}, {Name: "about", Value: line.About}, {Name: "undo", Value: "yes"},
	}}
}
