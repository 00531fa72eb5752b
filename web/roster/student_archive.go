package roster

import (
	"net/http"

	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

func (ro *Pages) confirmArchiveStudent(w http.ResponseWriter, r *http.Request) error {
	student, err := ro.findStudent(r)
	if err != nil {
		return err
	}
	return ro.renderConfirm(w, r, confirmView{
		Here: "/students", Title: "Archive " + student.Name + "?",
		Says: []string{
			"They are signed out, cannot sign in and are in no list. What they recorded stays, and you can restore them at any time from the archived students or their page.",
		},
		Do: "Archive " + shortenText(student.Name), Back: route.StudentPath(student.ID),
	})
}

// archiveStudent goes back to the student's page, which offers to undo it.
func (ro *Pages) archiveStudent(w http.ResponseWriter, r *http.Request) error {
	student, err := ro.findStudent(r)
	if err != nil {
		return err
	}
	if err := ro.Store.ArchivePerson(r.Context(), session.MustUser(r).Actor, student.ID); err != nil {
		return err
	}
	return page.Redirect(w, r, route.StudentPath(student.ID))
}

func (ro *Pages) restoreStudent(w http.ResponseWriter, r *http.Request) error {
	student, err := ro.findStudent(r)
	if err != nil {
		return err
	}
	if err := ro.Store.RestorePerson(r.Context(), session.MustUser(r).Actor, student.ID); err != nil {
		return err
	}
	ro.Sessions.SetFlashWithUndo(w, r, student.Name+" is back. Their code and PIN work again.",
		&page.UndoForm{Path: route.StudentPath(student.ID) + "/archive", About: "the restoring of " + student.Name})
	return page.Redirect(w, r, route.StudentPath(student.ID))
}
