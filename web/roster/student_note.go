package roster

import (
	"net/http"

	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// saveNote keeps what the coach notes about a student for nobody else.
func (ro *Pages) saveNote(w http.ResponseWriter, r *http.Request) error {
	student, form, err := ro.readStudentForm(w, r)
	if err != nil {
		return err
	}
	err = ro.Store.SaveStudentNote(r.Context(), session.MustUser(r).Actor, student.ID, form.RawText("note"))
	if form.AddProblems(err) {
		return ro.renderStudent(w, r, http.StatusUnprocessableEntity, func(v *studentView) { v.Note = form })
	}
	if err != nil {
		return err
	}
	ro.Sessions.SetFlash(w, r, "Note saved. Nobody but you reads it.")
	return page.Redirect(w, r, route.StudentPath(student.ID))
}
