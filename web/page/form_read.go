package page

import (
	"errors"
	"fmt"
	"net/http"
	"strings"

	"breakwright/internal/say"
)

// MaxFormBytes bounds a form; an import is not sent as a form.
const MaxFormBytes = 1 << 20

// ErrUnreadableForm is a form that could not be read at all: cut off, or too long.
var ErrUnreadableForm = errors.New("the form could not be read")

// fieldTypedIn says in which units the numbers of a form were shown to be typed.
const fieldTypedIn = "typed_in"

// ReadForm reads the fields sent with a request.
func ReadForm(w http.ResponseWriter, r *http.Request) (*Form, error) {
	r.Body = http.MaxBytesReader(w, r.Body, MaxFormBytes)
	if err := r.ParseForm(); err != nil {
		return nil, fmt.Errorf("%w: %w", ErrUnreadableForm, err)
	}
	form := &Form{Values: r.Form}
	form.rejectUnkeepable()
	if form.Text(fieldTypedIn) == say.Metric.Short(say.Place) {
		form.Units = say.Metric
	}
	return form, nil
}

// ReadFormOf finds what a form is about, and then reads its fields.
func ReadFormOf[Noun any](w http.ResponseWriter, r *http.Request, find func(*http.Request) (Noun, error)) (Noun, *Form, error) {
	noun, err := find(r)
	if err != nil {
		return noun, nil, err
	}
	form, err := ReadForm(w, r)
	return noun, form, err
}

// rejectUnkeepable refuses fields with a letter that is none, and shows what was
// typed with a sign in its place: the database keeps neither a zero byte nor
// broken UTF-8.
func (f *Form) rejectUnkeepable() {
	for name, values := range f.Values {
		clean := CleanText(name)
		if clean != name {
			delete(f.Values, name) // no field of ours
			continue
		}
		for i, value := range values {
			if cleaned := CleanText(value); cleaned != value {
				values[i] = cleaned
				f.Reject(name, "something in it is no letter, shown as "+badLetter+"; take it out")
			}
		}
	}
}

// badLetter stands where a letter cannot be kept.
const badLetter = "\ufffd"

// CleanText puts a sign in the place of zero bytes and of what is no UTF-8.
func CleanText(text string) string {
	return strings.ToValidUTF8(strings.ReplaceAll(text, "\x00", badLetter), badLetter)
}
