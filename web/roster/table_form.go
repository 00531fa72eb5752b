package roster

import (
	"fmt"
	"strings"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
)

// The fields of a table's form.
const (
	fieldName    = "name"
	fieldVenue   = "venue"
	fieldFeet    = "feet"
	fieldPockets = "pockets"
	fieldCorner  = "corner"
	fieldSide    = "side"
)

// sizeClass names a size of table for the sheet of styles: "size-9", "size-small-8".
func sizeClass(k table.Kind) string { return "size-" + strings.ReplaceAll(k.Size(), " ", "-") }

// fillTableForm fills the form with a table as it is.
func fillTableForm(t store.Table, u say.Units) *page.Form {
	pockets, known := findPocketKind(t.Kind)
	values := map[string]string{
		formID: newFormID(), fieldName: t.Name, fieldVenue: t.Venue, fieldFeet: t.Kind.Size(), fieldPockets: pockets.value,
	}
	if !known {
		values[fieldCorner], values[fieldSide] = u.Typed(say.Mouth, float64(t.Kind.CornerMouth)), u.Typed(say.Mouth, float64(t.Kind.SideMouth))
	}
	return page.NewFormIn(u, values)
}

// readTable reads a table from the form; the store checks name and venue. kept is the
// kind that the form was filled with.
func readTable(form *page.Form, kept table.Kind) store.Table {
	kind, err := table.ParseSize(form.Text(fieldFeet))
	if err != nil {
		form.Reject(fieldFeet, "choose one of the sizes")
	}
	pockets := chosenPockets(form)
	kind.CornerMouth = readPocketMouth(form, fieldCorner, kept.CornerMouth, pockets.corner)
	kind.SideMouth = readPocketMouth(form, fieldSide, kept.SideMouth, pockets.side)
	return store.Table{Name: form.Text(fieldName), Venue: form.Text(fieldVenue), Kind: kind}
}

// readPocketMouth reads a pocket's mouth: what was typed, else that of the chosen kind
// of pockets. A number that the form was filled with, and that nobody typed over, gives
// way to a kind.
func readPocketMouth(form *page.Form, field string, kept, standard table.Inches) table.Inches {
	u := form.Units
	untouched := form.Text(field) == u.Typed(say.Mouth, float64(kept))
	if form.Text(field) == "" || untouched && isPocketKind(form.Text(fieldPockets)) {
		return standard
	}
	number := func(v table.Inches) string { return u.Number(say.Mouth, float64(v)) }
	says := fmt.Sprintf("write the %s mouth in %s, from %s to %s, for example %s",
		field, u.Long(say.Mouth), number(table.TightestMouth), number(table.WidestMouth), number(standard))
	mouth := table.Inches(form.MeasureBeside(field, say.Mouth, float64(kept), says))
	if form.ErrorFor(field) == "" && !(mouth >= table.TightestMouth && mouth <= table.WidestMouth) {
		form.Reject(field, says)
	}
	return mouth
}

// pocketMouthHint says how it is measured.
func pocketMouthHint(u say.Units) string {
	return fmt.Sprintf("%s from nose tip to nose tip, where the ball goes in. Empty is as chosen above.", say.Capitalize(u.Long(say.Mouth)))
}

// kindFromForm is the kind of table in the form, as far as it can be drawn.
func kindFromForm(form *page.Form, otherwise table.Kind) table.Kind {
	copied := &page.Form{Values: form.Values, Units: form.Units}
	if t := readTable(copied, otherwise); copied.IsValid() {
		return t.Kind
	}
	return otherwise
}
