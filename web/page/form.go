package page

import (
	"errors"
	"fmt"
	"math"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/say"
)

// Form is what was typed and what is wrong with it, so that a refused form
// comes back with nothing lost and each sentence beside its field.
type Form struct {
	Values   url.Values
	Problems drill.Problems
	// Units are those that its lengths and speeds are typed in.
	Units say.Units
}

// MaxFormBytes bounds a form; an import is not sent as a form.
const MaxFormBytes = 1 << 20

// ErrUnreadableForm is a form that could not be read at all: cut off, or too long.
var ErrUnreadableForm = errors.New("the form could not be read")

// ReadForm takes the fields sent with a request.
func ReadForm(w http.ResponseWriter, r *http.Request) (*Form, error) {
	r.Body = http.MaxBytesReader(w, r.Body, MaxFormBytes)
	if err := r.ParseForm(); err != nil {
		return nil, fmt.Errorf("%w: %w", ErrUnreadableForm, err)
	}
	form := &Form{Values: r.Form}
	form.rejectUnkeepable()
	form.chooseUnits(say.UnitsOf(r.Context()))
	return form, nil
}

// ReadFormOf finds what a form is about, and then takes its fields.
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
				f.Reject(name, "there is a letter in it that is none, shown as "+badLetter+"; take it out")
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

// NewForm makes a form filled with values, for showing.
func NewForm(values map[string]string) *Form {
	f := &Form{Values: url.Values{}}
	for name, value := range values {
		f.Values.Set(name, value)
	}
	return f
}

// NewFormIn makes a form filled with values that are typed in units.
func NewFormIn(u say.Units, values map[string]string) *Form {
	f := NewForm(values)
	f.Units = u
	return f
}

// Text gives a field with the white space around it removed.
func (f *Form) Text(name string) string { return strings.TrimSpace(f.Values.Get(name)) }

// RawText gives a field as typed: what a form shows again.
func (f *Form) RawText(name string) string { return f.Values.Get(name) }

// Has reports whether a field, for example a box that was ticked, was sent.
func (f *Form) Has(name string) bool { return f.Values.Has(name) }

// ErrorFor gives the sentence about a field, or "".
func (f *Form) ErrorFor(name string) string { return f.Problems.MessageFor(name) }

// IsValid says that nothing is wrong so far.
func (f *Form) IsValid() bool { return len(f.Problems) == 0 }

// Reject notes what is wrong with a field.
func (f *Form) Reject(name, says string) { f.Problems.Add(name, says) }

// plainNumber reads a comma as the decimal point it is in most of the world, and
// a true minus sign or a dash as the hyphen they stand for.
var plainNumber = strings.NewReplacer(",", ".", "−", "-", "–", "-")

// Number reads a field that must hold a number, see plainNumber. What is no number is refused beside the
// field and given as 0.
func (f *Form) Number(name, says string) float64 {
	v, err := strconv.ParseFloat(plainNumber.Replace(f.Text(name)), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		f.Reject(name, says)
		return 0
	}
	return v
}

// NumberOrNaN is Number for a field with bounds: what is no number is given as NaN,
// which is within none.
func (f *Form) NumberOrNaN(name, says string) float64 {
	before := len(f.Problems)
	v := f.Number(name, says)
	if len(f.Problems) > before {
		return math.NaN()
	}
	return v
}

// WholeNumber reads a field that must hold a whole number.
func (f *Form) WholeNumber(name, says string) int {
	n, err := strconv.Atoi(f.Text(name))
	if err != nil {
		f.Reject(name, says)
	}
	return n
}

// fieldTypedIn says in which units the numbers of a form were shown to be typed, so
// that a form is read as it stood though the club chose others meanwhile.
const fieldTypedIn = "typed_in"

// chooseUnits finds the units of what was typed: the form's own word, else the given.
func (f *Form) chooseUnits(otherwise say.Units) {
	f.Units = otherwise
	for _, u := range []say.Units{say.InchesAndMiles, say.Metric} {
		if f.Text(fieldTypedIn) == u.Short(say.Place) {
			f.Units = u
		}
	}
}

// InInchesUnlessSaid reads a form whose address may be kept and shared: in inches and
// miles unless the form itself says otherwise.
func (f *Form) InInchesUnlessSaid() { f.chooseUnits(say.InchesAndMiles) }

// Measure reads a field that must hold a length or a speed in the form's units, and
// gives inches or miles an hour. What is no number is refused beside the field and
// given as NaN, which is within no bounds.
func (f *Form) Measure(name string, m say.Quantity, says string) float64 {
	return f.Units.ReadTyped(m, f.NumberOrNaN(name, says))
}

// MeasureBeside is Measure for a field that was filled with a kept value: what nobody
// typed over stays as it is kept, however coarsely the field shows it.
func (f *Form) MeasureBeside(name string, m say.Quantity, kept float64, says string) float64 {
	if f.Text(name) == f.Units.Typed(m, kept) {
		return kept
	}
	return f.Measure(name, m, says)
}

// MeasureOrDefault is Measure for a field that may be empty.
func (f *Form) MeasureOrDefault(name string, m say.Quantity, empty float64, says string) float64 {
	if f.Text(name) == "" {
		return empty
	}
	return f.Measure(name, m, says)
}

// AddProblems adds the problems in err to the form and reports whether it was made of
// problems; any other error is the caller's.
func (f *Form) AddProblems(err error) bool {
	var problems drill.Problems
	if !errors.As(err, &problems) {
		return false
	}
	f.Problems = append(f.Problems, problems...)
	return true
}
