package page

import (
	"errors"
	"math"
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
	// Units are those that its lengths and speeds are typed in: the form's own word
	// ([UnitsInput]), so that it is read as it stood though the club chose others
	// meanwhile; inches and miles an hour where it says nothing, as in an address.
	Units say.Units
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

// Text returns a field with the white space around it removed.
func (f *Form) Text(name string) string { return strings.TrimSpace(f.Values.Get(name)) }

// RawText returns a field as typed: what a form shows again.
func (f *Form) RawText(name string) string { return f.Values.Get(name) }

// Has reports whether a field, for example a box that was ticked, was sent.
func (f *Form) Has(name string) bool { return f.Values.Has(name) }

// ErrorFor returns the sentence about a field, or "".
func (f *Form) ErrorFor(name string) string { return say.Sentence(f.Problems.MessageFor(name)) }

// IsValid reports whether nothing is wrong so far.
func (f *Form) IsValid() bool { return len(f.Problems) == 0 }

// Reject notes what is wrong with a field, in a phrase: see [drill.Problem].
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

// Measure reads a field that must hold a length or a speed in the form's units, and
// returns inches or miles an hour. What is no number is refused beside the field and
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
