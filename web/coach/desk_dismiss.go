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
	viewer, apply, words := session.MustUser(r).Actor, p.store.DismissDeskLine, "Noted. It will not be shown again."
	undo := &page.UndoForm{Path: "/desk/seen", About: "show it again", Fields: []page.HiddenField{
		{Name: "reason", Value: form.Text("reason")}, {Name: "about", Value: form.Text("about")}, {Name: "undo", Value: "yes"},
	}}
	if form.Has("undo") {
		apply, words, undo = p.store.RestoreDeskLine, "It is on the desk again.", nil
	}
	for _, student := range form.Values["student"] {
		id, err := store.ParseID[store.PersonID](student)
		if err != nil {
			return err
		}
		seen := store.DismissedLine{Student: id, Reason: store.DismissReason(form.Text("reason")), About: form.Text("about")}
		if err := apply(r.Context(), viewer, seen); err != nil {
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
