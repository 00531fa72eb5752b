package roster

import (
	"net/http"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

func (ro *Pages) renameClass(w http.ResponseWriter, r *http.Request) error {
	class, _, err := ro.findClass(r)
	if err != nil {
		return err
	}
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	_, err = ro.Store.SaveClass(r.Context(), session.MustUser(r).Actor, store.Class{ID: class.ID, Name: form.Text("name")})
	if form.AddProblems(err) {
		return ro.renderClass(w, r, http.StatusUnprocessableEntity, func(v *classView) { v.Rename = form })
	}
	if err != nil {
		return err
	}
	ro.Sessions.SetFlashWithUndo(w, r, "Class renamed.", undoRename(route.ClassPath(class.ID), class.Name))
	return page.Redirect(w, r, route.ClassPath(class.ID))
}

func (ro *Pages) confirmArchiveClass(w http.ResponseWriter, r *http.Request) error {
	class, members, err := ro.findClass(r)
	if err != nil {
		return err
	}
	return ro.renderConfirm(w, r, confirmView{
		Here: "/classes", Title: "Archive " + class.Name + "?",
		Says: []string{
			"Drills assigned to this class go off everyone's page. Its " + countStudents(len(members)) + " stay in the club, and everything they recorded stays.",
			"The class moves to the archived ones, where you can still read it, and restore it with its drills.",
		},
		Do: "Archive the class", Back: route.ClassPath(class.ID),
	})
}

func (ro *Pages) archiveClass(w http.ResponseWriter, r *http.Request) error {
	class, _, err := ro.findClass(r)
	if err != nil {
		return err
	}
	if err := ro.Store.ArchiveClass(r.Context(), session.MustUser(r).Actor, class.ID); err != nil {
		return err
	}
	ro.Sessions.SetFlashWithUndo(w, r, class.Name+" is archived.", &page.UndoForm{Path: route.ClassPath(class.ID) + "/restore", About: "the archiving of " + class.Name})
	return page.Redirect(w, r, "/classes")
}

func (ro *Pages) restoreClass(w http.ResponseWriter, r *http.Request) error {
	class, _, err := ro.findClass(r)
	if err != nil {
		return err
	}
	if err := ro.Store.RestoreClass(r.Context(), session.MustUser(r).Actor, class.ID); err != nil {
		return err
	}
	ro.Sessions.SetFlashWithUndo(w, r, class.Name+" is back. Drills that were not ended are on its students’ pages again.",
		&page.UndoForm{Path: route.ClassPath(class.ID) + "/archive", About: "the restoring of " + class.Name})
	return page.Redirect(w, r, route.ClassPath(class.ID))
}
