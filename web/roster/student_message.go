package roster

import (
	"net/http"
	"strings"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// Fields of a message: its text, and the one that is taken back.
const (
	fieldBody = "body"
	fieldUndo = "undo"
)

// messageStudents sends a message to all who are ticked, or to all who are shown.
func (ro *Pages) messageStudents(w http.ResponseWriter, r *http.Request) error {
	form, err := page.ReadForm(w, r)
	if err != nil {
		return err
	}
	if form.Has(fieldUndo) {
		return ro.takeMessageBack(w, r, form, studentsPath(form, nil))
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
	ro.Sessions.SetFlashWithUndo(w, r, sent.words(), sent.undo("/students/message", form))
	return page.Redirect(w, r, studentsPath(form, nil))
}

// messageStudent sends a message to one student from their page.
func (ro *Pages) messageStudent(w http.ResponseWriter, r *http.Request) error {
	student, form, err := ro.readStudentForm(w, r)
	if err != nil {
		return err
	}
	if form.Has(fieldUndo) {
		return ro.takeMessageBack(w, r, form, route.StudentPath(student.ID))
	}
	sent, err := ro.sendMessage(r, form, []store.PersonID{student.ID})
	if err != nil {
		return err
	}
	if !form.IsValid() {
		return ro.renderStudent(w, r, http.StatusUnprocessableEntity, func(v *studentView) { v.Message = form })
	}
	ro.Sessions.SetFlashWithUndo(w, r, sent.words(), sent.undo(route.StudentPath(student.ID)+"/message", form))
	return page.Redirect(w, r, route.StudentPath(student.ID))
}

// sentMessage is a message that was sent.
type sentMessage struct {
	id store.MessageID
	// sent counts those who have it, of the chosen.
	sent, chosen int
}

// sendMessage sends what the form says once, however often it is sent, and rejects a
// text that cannot be.
func (ro *Pages) sendMessage(r *http.Request, form *page.Form, students []store.PersonID) (sentMessage, error) {
	if !form.IsValid() {
		return sentMessage{}, nil
	}
	words := []string{form.Text(fieldBody)}
	for _, id := range students {
		words = append(words, id.String())
	}
	m := sentMessage{id: store.MessageID{UUID: idFromForm(form, words...)}, chosen: len(students)}
	var err error
	m.sent, err = ro.Store.PostToStudents(r.Context(), session.MustUser(r).Actor, m.id, students, form.Text(fieldBody))
	if form.AddProblems(err) {
		return m, nil
	}
	if err == nil && m.sent == 0 {
		form.Reject(fieldBody, "sent to nobody: who is archived reads no messages")
	}
	return m, err
}

// words say who has the message, and who was left out.
func (m sentMessage) words() string {
	words := "Sent to " + countStudents(m.sent) + "."
	if left := m.chosen - m.sent; left > 0 {
		words += " " + say.Capitalize(say.Count(left, "student is", "students are")) + " archived, and did not get it."
	}
	return words
}

// undo takes the message back and leads to the list as it was looked at.
func (m sentMessage) undo(path string, form *page.Form) *page.UndoForm {
	undo := &page.UndoForm{Path: path, About: "the message", Fields: []page.HiddenField{{Name: fieldUndo, Value: m.id.String()}}}
	for _, name := range []string{fieldSearch, fieldShow, fieldClass} {
		undo.Fields = append(undo.Fields, page.HiddenField{Name: name, Value: form.Text(name)})
	}
	return undo
}

// takeMessageBack takes the message that the form names back from all who have not
// read it.
func (ro *Pages) takeMessageBack(w http.ResponseWriter, r *http.Request, form *page.Form, back string) error {
	id, err := store.ParseID[store.MessageID](form.Text(fieldUndo))
	if err != nil {
		return err
	}
	taken, kept, err := ro.Store.TakeBackMessage(r.Context(), session.MustUser(r).Actor, id)
	if err != nil {
		return err
	}
	ro.Sessions.SetFlash(w, r, takenBackWords(taken, kept))
	return page.Redirect(w, r, back)
}

// takenBackWords say from whom a message was taken back, and who had read it.
func takenBackWords(taken, kept int) string {
	var says []string
	if taken > 0 || kept == 0 {
		says = append(says, "Taken back from "+countStudents(taken)+".")
	}
	if kept > 0 {
		says = append(says, say.Capitalize(say.Count(kept, "student has", "students have"))+" read it already: there it stays.")
	}
	return strings.Join(says, " ")
}
