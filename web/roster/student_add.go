package roster

import (
	"fmt"
	"net/http"
	"strings"

	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"

	"github.com/google/uuid"
)

func (ro *Roster) addStudents(w http.ResponseWriter, r *http.Request) error {
	class, members, err := ro.class(r)
	if err != nil {
		return err
	}
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	if class.Archived {
		return fmt.Errorf("add students to an archived class: %w", store.ErrConflict)
	}
	adding, problems := readNames(form.RawText("names"))
	form.Problems = append(form.Problems, problems...)
	same := false
	id := formOf(form, adding)
	if form.IsValid() && !addedBefore(id, len(adding), members) {
		same = refuseRepeated(form, adding, members)
	}
	if form.IsValid() {
		_, err = ro.Store.AddStudents(r.Context(), session.MustUser(r).Actor, id, class.ID, adding)
	}
	if form.AddProblems(err); !form.IsValid() {
		return ro.renderClass(w, r, http.StatusUnprocessableEntity, func(v *classView) {
			v.Add, v.Same = form, same || form.Has("same")
		})
	}
	if err != nil {
		return err
	}
	ro.Sessions.SetFlash(w, r, upper(students(len(adding)))+" added. Print the join codes and hand them out.")
	return page.Redirect(w, r, classPath(class.ID))
}

// formOf is the form's id for the store: see madeBy.
func formOf(form *page.Form, adding []store.NewStudent) uuid.UUID {
	words := make([]string, len(adding))
	for i, student := range adding {
		words[i] = student.Name + "\t" + string(student.Side)
	}
	return madeBy(form, words...)
}

// refuseRepeated points out names that are there already or were written
// twice, unless the coach has said that it is meant. It says whether there are
// any.
func refuseRepeated(form *page.Form, adding []store.NewStudent, members []store.Person) bool {
	there, twice := repeated(adding, members)
	if len(there)+len(twice) == 0 || form.Has("same") {
		return len(there)+len(twice) > 0
	}
	var says []string
	if len(there) > 0 {
		says = append(says, "In this class already: "+list(there)+".")
	}
	if len(twice) > 0 {
		says = append(says, "Written more than once: "+list(twice)+".")
	}
	form.Reject("same", strings.Join(says, " ")+" Take them out of the list, or tick the box if these are other people.")
	return true
}
