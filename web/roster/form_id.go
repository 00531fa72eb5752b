package roster

import (
	"encoding/binary"
	"slices"
	"strings"

	"github.com/google/uuid"

	"breakwright/internal/store"
	"breakwright/web/page"
)

// formID is the name of the hidden field with the form's id.
const formID = "form_id"

// newFormWithID is an empty form with an id of its own.
func newFormWithID() *page.Form { return page.NewForm(map[string]string{formID: newFormID()}) }

func newFormID() string { return uuid.Must(uuid.NewV7()).String() }

// idFromForm is the id of what a form makes: the same for the same form with the
// same words in it, so that a double click makes one thing, and another when a
// form is called back, changed and sent again, so that a new thing never
// overwrites the first. A form whose id was lost repeats nothing.
func idFromForm(form *page.Form, words ...string) uuid.UUID {
	id, err := uuid.Parse(form.Text(formID))
	if err != nil {
		return uuid.Must(uuid.NewV7())
	}
	return uuid.NewSHA1(id, []byte(strings.Join(words, "\x1f")))
}

// wereAddedBefore reports whether the n students of a form are in the class already
// because the form was sent before. It names them as store.AddStudents does;
// the test that sends a form twice holds the two together.
func wereAddedBefore(form uuid.UUID, n int, members []store.Person) bool {
	for i := range n {
		id := uuid.NewSHA1(form, binary.BigEndian.AppendUint32(nil, uint32(i)))
		if !slices.ContainsFunc(members, func(p store.Person) bool { return p.ID.UUID == id }) {
			return false
		}
	}
	return n > 0
}
