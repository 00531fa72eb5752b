package roster

import (
	"net/http"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
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
	if _, err := ro.changeStudent(r, store.RosterChange{Kind: store.ArchiveMany}, student.ID); err != nil {
		return err
	}
	return page.Redirect(w, r, route.StudentPath(student.ID))
}

func (ro *Pages) restoreStudent(w http.ResponseWriter, r *http.Request) error {
	student, err := ro.findStudent(r)
	if err != nil {
		return err
	}
	made, err := ro.changeStudent(r, store.RosterChange{Kind: store.RestoreMany}, student.ID)
	if err != nil {
		return err
	}
	ro.Sessions.SetFlashWithUndo(w, r, student.Name+" is back. Their code and PIN work again.",
		undoOne(made, "the restoring of "+student.Name, fieldStudent, student.ID.String()))
	return page.Redirect(w, r, route.StudentPath(student.ID))
}
