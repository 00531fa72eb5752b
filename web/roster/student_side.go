package roster

import (
	"net/http"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// breakSideOption is one of the three answers to "which side".
type breakSideOption struct {
	Value table.Side
	Words string
}

func listBreakSides() []breakSideOption {
	return []breakSideOption{{table.Left, "Left"}, {table.Right, "Right"}, {"", "Not known"}}
}

// setBreakSide sets a student's break side, from a class's row or from the
// student's own page.
func (ro *Pages) setBreakSide(w http.ResponseWriter, r *http.Request) error {
	student, form, err := ro.readStudentForm(w, r)
	if err != nil {
		return err
	}
	was := student.Side
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
		ro.Sessions.SetFlashWithUndo(w, r, breakSideWords(student.Side)+".", undoSide(student, was, ""))
		return page.Redirect(w, r, route.StudentPath(student.ID))
	case page.IsPartial(r):
		return ro.renderStudentRow(w, r, student, class)
	}
	ro.Sessions.SetFlashWithUndo(w, r, student.Name+": "+say.Decapitalize(breakSideWords(student.Side))+".", undoSide(student, was, class.String()))
	return page.Redirect(w, r, route.ClassPath(class))
}

// undoSide gives a student the side back that they had, and returns to the page where
// another was set; nil where it was the same.
func undoSide(student store.Person, was table.Side, class string) *page.UndoForm {
	if student.Side == was {
		return nil
	}
	return &page.UndoForm{
		Path: route.StudentPath(student.ID) + "/side", About: "the break side of " + student.Name,
		Fields: []page.HiddenField{{Name: "side", Value: string(was)}, {Name: "class", Value: class}},
	}
}

// renderStudentRow answers with the row alone.
func (ro *Pages) renderStudentRow(w http.ResponseWriter, r *http.Request, student store.Person, class store.ClassID) error {
	return page.Render(w, r, http.StatusOK, studentRow(newStudentLine(student, class)))
}
