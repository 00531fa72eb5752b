package roster

import (
	"fmt"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/page"
)

// The fields of a table's form.
const (
	fieldName   = "name"
	fieldVenue  = "venue"
	fieldFeet   = "feet"
	fieldCorner = "corner"
	fieldSide   = "side"
)

// fillTableForm fills the form with a table as it is.
func fillTableForm(t store.Table, u say.Units) *page.Form {
	return page.NewFormIn(u, map[string]string{
		formID: newFormID(), fieldName: t.Name, fieldVenue: t.Venue, fieldFeet: fmt.Sprint(t.Kind.Feet),
		fieldCorner: u.Typed(say.Mouth, float64(t.Kind.CornerMouth)), fieldSide: u.Typed(say.Mouth, float64(t.Kind.SideMouth)),
	})
}

// readTable reads a table from the form; the store checks name and venue. kept is the
// kind that the form was filled with.
func readTable(form *page.Form, kept table.Kind) store.Table {
	feet := form.WholeNumber(fieldFeet, "choose 7, 8 or 9 feet")
	if form.ErrorFor(fieldFeet) == "" && (feet < 7 || feet > 9) {
		form.Reject(fieldFeet, "choose 7, 8 or 9 feet")
	}
	return store.Table{
		Name: form.Text(fieldName), Venue: form.Text(fieldVenue),
		Kind: table.Kind{
			Feet:        feet,
			CornerMouth: readPocketMouth(form, fieldCorner, kept.CornerMouth, table.StandardCornerMouth),
			SideMouth:   readPocketMouth(form, fieldSide, kept.SideMouth, table.StandardSideMouth),
		},
	}
}

// readPocketMouth reads a pocket's mouth; empty is the standard one.
func readPocketMouth(form *page.Form, field string, kept, standard table.Inches) table.Inches {
	if form.Text(field) == "" {
		return standard
	}
	u := form.Units
	number := func(v table.Inches) string { return u.Number(say.Mouth, float64(v)) }
	says := fmt.Sprintf("write the %s mouth in %s, from %s to %s, for example %s",
		field, u.Long(say.Mouth), number(table.TightestMouth), number(table.WidestMouth), number(standard))
	mouth := table.Inches(form.MeasureBeside(field, say.Mouth, float64(kept), says))
	if form.ErrorFor(field) == "" && !(mouth >= table.TightestMouth && mouth <= table.WidestMouth) {
		form.Reject(field, says)
	}
	return mouth
}

// pocketMouthHint says what is usual.
func pocketMouthHint(standard table.Inches, u say.Units) string {
	return fmt.Sprintf("%s from nose tip to nose tip, where the ball goes in. Standard is %s.", say.Capitalize(u.Long(say.Mouth)), u.Number(say.Mouth, float64(standard)))
}

// kindFromForm is the kind of table in the form, as far as it can be drawn.
func kindFromForm(form *page.Form, otherwise table.Kind) table.Kind {
	copied := &page.Form{Values: form.Values, Units: form.Units}
	if t := readTable(copied, otherwise); copied.IsValid() {
		return t.Kind
	}
	return otherwise
}
