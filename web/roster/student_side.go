package roster

import (
	"net/http"

	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
	"breakwright/web/session"
)

// sideOption is one of the three answers to "which side".
type sideOption struct {
	Value table.Side
	Words string
}

func sideOptions() []sideOption {
	return []sideOption{{table.Left, "Left"}, {table.Right, "Right"}, {"", "Not known"}}
}

// setSide sets a student's break side, from a class's row or from the
// student's own page.
func (ro *Roster) setSide(w http.ResponseWriter, r *http.Request) error {
	student, err := ro.student(r)
	if err != nil {
		return err
	}
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	student.Side = table.Side(form.Text("side"))
	err = ro.Store.SetSide(r.Context(), session.MustUser(r).Actor, student.ID, student.Side)
	if form.AddProblems(err) {
		return ro.renderStudent(w, r, http.StatusUnprocessableEntity, func(v *studentView) { v.SideForm = form })
	}
	if err != nil {
		return err
	}
	class, err := store.ParseID[store.ClassID](form.Text("class"))
	switch {
	case err != nil:
		ro.Sessions.SetFlash(w, r, sideWords(student.Side)+".")
		return page.Redirect(w, r, studentPath(student.ID))
	case page.IsPartial(r):
		return ro.renderRow(w, r, student, class)
	}
	ro.Sessions.SetFlash(w, r, student.Name+": "+lower(sideWords(student.Side))+".")
	return page.Redirect(w, r, classPath(class))
}

// renderRow answers with the row alone.
func (ro *Roster) renderRow(w http.ResponseWriter, r *http.Request, student store.Person, class store.ClassID) error {
	return page.Render(w, r, http.StatusOK, studentRow(lineOf(student, class)))
}
