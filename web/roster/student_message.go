package roster

import (
	"net/http"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/session"
)

// fieldBody is the text of a message.
const fieldBody = "body"

// messageStudents sends a message to all who are ticked, or to all who are shown.
func (ro *Pages) messageStudents(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	students, err := ro.chosenStudents(r, form)
	if err != nil {
		return err
	}
	rejectUnchosen(form, len(students))
	sent, err := ro.sendMessage(r, form, students)
	if err != nil {
		return err
	}
	if !form.IsValid() {
		return ro.renderStudents(w, r, http.StatusUnprocessableEntity, form)
	}
	ro.Sessions.SetFlash(w, r, sentWords(sent, len(students)))
	return page.Redirect(w, r, studentsPath(form, nil))
}

// messageStudent sends a message to one student from their page.
func (ro *Pages) messageStudent(w http.ResponseWriter, r *http.Request) error {
	student, form, err := ro.readStudentForm(w, r)
	if err != nil {
		return err
	}
	sent, err := ro.sendMessage(r, form, []store.PersonID{student.ID})
	if err != nil {
		return err
	}
	if !form.IsValid() {
		return ro.renderStudent(w, r, http.StatusUnprocessableEntity, func(v *studentView) { v.Message = form })
	}
	ro.Sessions.SetFlash(w, r, sentWords(sent, 1))
	return page.Redirect(w, r, studentPath(student.ID))
}

// sendMessage sends what the form says once, however often it is sent, and rejects a
// text that cannot be. It gives the number of those who have it.
func (ro *Pages) sendMessage(r *http.Request, form *page.Form, students []store.PersonID) (sent int, err error) {
	if !form.IsValid() {
		return 0, nil
	}
	words := []string{form.Text(fieldBody)}
	for _, id := range students {
		words = append(words, id.String())
	}
	id := store.MessageID{UUID: idFromForm(form, words...)}
	sent, err = ro.Store.PostToStudents(r.Context(), session.MustUser(r).Actor, id, students, form.Text(fieldBody))
	if form.AddProblems(err) {
		return 0, nil
	}
	return sent, err
}

// sentWords says who has a message, and who was left out.
func sentWords(sent, chosen int) string {
	left := chosen - sent
	switch {
	case sent == 0:
		return "Not sent: a message stands beside a set, and there is none yet."
	case left > 0:
		return "Sent to " + countStudents(sent) + ". " + say.Capitalize(say.Count(left, "student has", "students have")) + " no set yet, and did not get it."
	}
	return "Sent to " + countStudents(sent) + ", beside the latest set."
}
