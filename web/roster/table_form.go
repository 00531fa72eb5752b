package roster

import (
	"fmt"

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
func fillTableForm(t store.Table) *page.Form {
	return page.NewForm(map[string]string{
		formID: newFormID(), fieldName: t.Name, fieldVenue: t.Venue, fieldFeet: fmt.Sprint(t.Kind.Feet),
		fieldCorner: t.Kind.CornerMouth.String(), fieldSide: t.Kind.SideMouth.String(),
	})
}

// readTable reads a table from the form; the store checks name and venue.
func readTable(form *page.Form) store.Table {
	feet := form.WholeNumber(fieldFeet, "choose 7, 8 or 9 feet")
	if form.ErrorFor(fieldFeet) == "" && (feet < 7 || feet > 9) {
		form.Reject(fieldFeet, "choose 7, 8 or 9 feet")
	}
	return store.Table{
		Name: form.Text(fieldName), Venue: form.Text(fieldVenue),
		Kind: table.Kind{
			Feet:        feet,
			CornerMouth: readPocketMouth(form, fieldCorner, table.StandardCornerMouth),
			SideMouth:   readPocketMouth(form, fieldSide, table.StandardSideMouth),
		},
	}
}

// readPocketMouth reads a pocket's mouth; empty is the standard one.
func readPocketMouth(form *page.Form, field string, standard table.Inches) table.Inches {
	says := fmt.Sprintf("write the %s mouth in inches, from %s to %s, for example %s", field, table.TightestMouth, table.WidestMouth, standard)
	mouth := table.Inches(form.NumberOrDefault(field, float64(standard), says))
	if form.ErrorFor(field) == "" && !(mouth >= table.TightestMouth && mouth <= table.WidestMouth) {
		form.Reject(field, says)
	}
	return mouth
}

// pocketMouthHint says what is usual.
func pocketMouthHint(standard table.Inches) string {
	return fmt.Sprintf("Inches from nose tip to nose tip, where the ball goes in. Standard is %s.", standard)
}

// kindFromForm is the kind of table in the form, as far as it can be drawn.
func kindFromForm(form *page.Form, otherwise table.Kind) table.Kind {
	copied := &page.Form{Values: form.Values}
	if t := readTable(copied); copied.IsValid() {
		return t.Kind
	}
	return otherwise
}
