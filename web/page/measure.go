package page

import "breakwright/internal/say"

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
