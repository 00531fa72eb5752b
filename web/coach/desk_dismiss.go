package coach

import (
	"net/http"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// dismissLine takes a line off the desk, for each student it is about.
func (p *Pages) dismissLine(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	viewer := session.MustUser(r).Actor
	for _, student := range form.Values["student"] {
		id, err := store.ParseID[store.PersonID](student)
		if err != nil {
			return err
		}
		seen := store.DismissedLine{Student: id, Reason: store.DismissReason(form.Text("reason")), About: form.Text("about")}
		if err := p.store.DismissDeskLine(r.Context(), viewer, seen); err != nil {
			return err
		}
	}
	if page.IsPartial(r) {
		return page.Render(w, r, http.StatusOK, settledRow("Noted. It will not be shown again."))
	}
	p.sessions.SetFlash(w, r, "Noted. It will not be shown again.")
	return page.Redirect(w, r, "/desk")
}
