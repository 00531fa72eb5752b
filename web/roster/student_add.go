package roster

import (
	"fmt"
	"net/http"
	"strconv"
	"strings"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// fieldSeen carries which reading of the pasted names was looked at, so that
// nothing is saved that was not.
const fieldSeen = "seen"

// fieldAdded is how many students the form that is undone added.
const fieldAdded = "added"

// lookLine is how one pasted line was read.
type lookLine struct{ Name, Side string }

// listLook shows how the names were read; nothing while a line cannot be read.
func listLook(adding []store.NewStudent, problems drill.Problems) []lookLine {
	if len(problems) > 0 {
		return nil
	}
	look := make([]lookLine, len(adding))
	for i, student := range adding {
		look[i] = lookLine{Name: student.Name, Side: say.Decapitalize(breakSideWords(student.Side))}
		if student.Side == "" && strings.Contains(student.Name, ",") {
			look[i].Side += "; what stands after the comma is read as part of the name"
		}
	}
	return look
}

// addStudents reads the names, shows how it read them, and adds them when the
// coach has looked.
func (ro *Pages) addStudents(w http.ResponseWriter, r *http.Request) error {
	class, members, err := ro.findClass(r)
	if err != nil {
		return err
	}
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	if form.Has(fieldUndo) {
		return ro.undoAddStudents(w, r, form, class.ID)
	}
	if class.Archived {
		return fmt.Errorf("add students to an archived class: %w", store.ErrConflict)
	}
	adding, problems := readStudentNames(form.RawText("names"))
	form.Problems = append(form.Problems, problems...)
	same := false
	id := addFormID(form, adding)
	if form.IsValid() && !wereAddedBefore(id, len(adding), members) {
		same = rejectRepeated(form, adding, members)
	}
	look := listLook(adding, problems)
	seen := form.Text(fieldSeen) == id.String()
	form.Values.Set(fieldSeen, id.String())
	if form.IsValid() && !seen {
		return ro.renderClass(w, r, http.StatusOK, func(v *classView) { v.Add, v.Look, v.Same = form, look, form.Has("same") })
	}
	if form.IsValid() {
		_, err = ro.Store.AddStudents(r.Context(), session.MustUser(r).Actor, id, class.ID, adding)
	}
	if form.AddProblems(err); !form.IsValid() {
		return ro.renderClass(w, r, http.StatusUnprocessableEntity, func(v *classView) {
			v.Add, v.Look, v.Same = form, look, same || form.Has("same")
		})
	}
	if err != nil {
		return err
	}
	ro.Sessions.SetFlashWithUndo(w, r, say.Capitalize(countStudents(len(adding)))+" added. Print the join codes and hand them out.", &page.UndoForm{
		Path: route.ClassPath(class.ID) + "/students", About: "the adding of students",
		Fields: []page.HiddenField{{Name: fieldUndo, Value: id.String()}, {Name: fieldAdded, Value: strconv.Itoa(len(adding))}},
	})
	return page.Redirect(w, r, route.ClassPath(class.ID))
}

// undoAddStudents archives those whom a form added.
func (ro *Pages) undoAddStudents(w http.ResponseWriter, r *http.Request, form *page.Form, class store.ClassID) error {
	id, err := uuid.Parse(form.Text(fieldUndo))
	if err != nil {
		return store.ErrNotFound
	}
	count, err := strconv.Atoi(form.Text(fieldAdded))
	if err != nil || count < 1 {
		return store.ErrNotFound
	}
	change, err := ro.Store.UndoAddStudents(r.Context(), session.MustUser(r).Actor, id, count)
	if err != nil {
		return err
	}
	ro.Sessions.SetFlashWithUndo(w, r, "Not added after all: "+countStudents(change.Students)+" put among the archived.",
		&page.UndoForm{Path: undoChangePath(change.ID), About: "the archiving"})
	return page.Redirect(w, r, route.ClassPath(class))
}

// addFormID is the form's id for the store: see idFromForm.
func addFormID(form *page.Form, adding []store.NewStudent) uuid.UUID {
	words := make([]string, len(adding))
	for i, student := range adding {
		words[i] = student.Name + "\t" + string(student.Side)
	}
	return idFromForm(form, words...)
}

// rejectRepeated points out names that are there already or were written
// twice, unless the coach has said that it is meant. It reports whether there are
// any.
func rejectRepeated(form *page.Form, adding []store.NewStudent, members []store.Person) bool {
	there, twice := findRepeated(adding, members)
	if len(there)+len(twice) == 0 || form.Has("same") {
		return len(there)+len(twice) > 0
	}
	var says []string
	if len(there) > 0 {
		says = append(says, "In this class already: "+say.Join(there)+".")
	}
	if len(twice) > 0 {
		says = append(says, "Written more than once: "+say.Join(twice)+".")
	}
	form.Reject("same", strings.Join(says, " ")+" Take them out of the list, or tick the box if these are other people")
	return true
}
