package roster

import (
	"net/http"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

func (ro *Pages) renameStudent(w http.ResponseWriter, r *http.Request) error {
	student, form, err := ro.readStudentForm(w, r)
	if err != nil {
		return err
	}
	err = ro.Store.RenamePerson(r.Context(), session.MustUser(r).Actor, student.ID, form.Text("name"))
	if form.AddProblems(err) {
		return ro.renderStudent(w, r, http.StatusUnprocessableEntity, func(v *studentView) { v.Rename = form })
	}
	if err != nil {
		return err
	}
	ro.Sessions.SetFlashWithUndo(w, r, "Renamed.", undoRename(route.StudentPath(student.ID), student.Name))
	return page.Redirect(w, r, route.StudentPath(student.ID))
}

// undoRename gives what is at a path the name back that it had.
func undoRename(path, name string) *page.UndoForm {
	return &page.UndoForm{Path: path + "/name", About: "the new name", Fields: []page.HiddenField{{Name: "name", Value: name}}}
}

// changeClasses puts the student into the class named in "enter", or takes
// them out of the one in "leave".
func (ro *Pages) changeClasses(w http.ResponseWriter, r *http.Request) error {
	student, form, err := ro.readStudentForm(w, r)
	if err != nil {
		return err
	}
	named, change, says := form.Text("enter"), store.RosterChange{Kind: store.AddToClass}, student.Name+" is in "
	if form.Has("leave") {
		named, change.Kind, says = form.Text("leave"), store.RemoveFromClass, student.Name+" is no longer in "
	}
	if change.Class, err = store.ParseID[store.ClassID](named); err != nil {
		return err
	}
	made, err := ro.changeStudent(r, change, student.ID)
	if err != nil {
		return err
	}
	ro.Sessions.SetFlashWithUndo(w, r, says+made.ClassName+".", undoOne(made, "the change of class", fieldStudent, student.ID.String()))
	return page.Redirect(w, r, route.StudentPath(student.ID))
}

// changeStudent makes a change to one student.
func (ro *Pages) changeStudent(r *http.Request, change store.RosterChange, student store.PersonID) (store.RosterChange, error) {
	return ro.Store.ChangeStudents(r.Context(), session.MustUser(r).Actor, change, []store.PersonID{student})
}

// undoOne takes the change of one student back and returns to the page that it was made
// from, which a field names; nil where nothing was to change.
func undoOne(made store.RosterChange, about, field, id string) *page.UndoForm {
	if made.Students == 0 {
		return nil
	}
	return &page.UndoForm{Path: undoChangePath(made.ID), About: about, Fields: []page.HiddenField{{Name: field, Value: id}}}
}
