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
	named, change, says, back := form.Text("enter"), ro.Store.AddMember, student.Name+" is in ", "leave"
	if form.Has("leave") {
		named, change, says, back = form.Text("leave"), ro.Store.RemoveMember, student.Name+" is no longer in ", "enter"
	}
	viewer := session.MustUser(r).Actor
	id, err := store.ParseID[store.ClassID](named)
	if err != nil {
		return err
	}
	class, _, err := ro.Store.GetClass(r.Context(), viewer, id)
	if err != nil {
		return err
	}
	if err := change(r.Context(), viewer, id, student.ID); err != nil {
		return err
	}
	ro.Sessions.SetFlashWithUndo(w, r, says+class.Name+".", &page.UndoForm{
		Path: route.StudentPath(student.ID) + "/classes", About: "the change of class", Fields: []page.HiddenField{{Name: back, Value: class.ID.String()}},
	})
	return page.Redirect(w, r, route.StudentPath(student.ID))
}
