package roster

import (
	"net/http"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
	"breakwright/web/route"
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
	student.Side = table.Side(form.Text("side"))
	made, err := ro.changeStudent(r, store.RosterChange{Kind: store.SetSides, Side: student.Side}, student.ID)
	if form.AddProblems(err) {
		return ro.renderStudent(w, r, http.StatusUnprocessableEntity, func(v *studentView) { v.SideForm = form })
	}
	if err != nil {
		return err
	}
	about := "the break side of " + student.Name
	class, err := store.ParseID[store.ClassID](form.Text(fieldClass))
	if err != nil {
		ro.Sessions.SetFlashWithUndo(w, r, breakSideWords(student.Side)+".", undoOne(made, about, fieldStudent, student.ID.String()))
		return page.Redirect(w, r, route.StudentPath(student.ID))
	}
	undo := undoOne(made, about, fieldClass, class.String())
	if page.IsPartial(r) {
		return ro.renderStudentRow(w, r, student, class, undo)
	}
	ro.Sessions.SetFlashWithUndo(w, r, student.Name+": "+say.Decapitalize(breakSideWords(student.Side))+".", undo)
	return page.Redirect(w, r, route.ClassPath(class))
}

// renderStudentRow answers with the row alone; undo, where it is not nil, stands in it.
func (ro *Pages) renderStudentRow(w http.ResponseWriter, r *http.Request, student store.Person, class store.ClassID, undo *page.UndoForm) error {
	line := newStudentLine(student, class)
	line.Undo = undo
	return page.Render(w, r, http.StatusOK, studentRow(line))
}
