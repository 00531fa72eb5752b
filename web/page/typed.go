package page

import (
	"net/url"
	"slices"
	"strings"
	"unicode"

	"github.com/google/uuid"
)

// TypedForm is a form that could not be saved, with what was typed into it.
type TypedForm struct {
	// Path is where it goes when it is sent again; "" when it holds a secret,
	// which no page shows again, and so has to be filled in anew.
	Path string
	// BackPath is the page of a form that holds a secret.
	BackPath string
	// Fields are all of them but secrets, in the order of their names.
	Fields []TypedField
}

// TypedField is one value of one field.
type TypedField struct{ Name, Value string }

// NewTypedForm takes the values of a form that was sent to a path.
func NewTypedForm(path string, values url.Values) *TypedForm {
	form := &TypedForm{Path: path}
	names := make([]string, 0, len(values))
	for name := range values {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		if slices.Contains(secretFields, name) {
			form.BackPath, form.Path = path, ""
			continue
		}
		for _, value := range values[name] {
			form.Fields = append(form.Fields, TypedField{name, value})
		}
	}
	return form
}

// secretFields are those of all pages into which a passphrase, a PIN or a code is typed.
var secretFields = []string{"secret", "new", "again", "present", "code"}

// Written lists what a person may have written, to be read or copied: not ids,
// numbers and other things that pages put into forms.
func (f *TypedForm) Written() []string {
	var written []string
	for _, field := range f.Fields {
		value := strings.TrimSpace(field.Value)
		if _, err := uuid.Parse(value); err == nil || !strings.ContainsFunc(value, unicode.IsLetter) || len([]rune(value)) < 3 {
			continue
		}
		if !slices.Contains(written, value) && !strings.HasPrefix(value, "[") && !strings.HasPrefix(value, "{") {
			written = append(written, value)
		}
	}
	return written
}
