package rehearsal

import (
	"math"
	"slices"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Remedy is a change of one variable in one direction.
type Remedy struct {
	Variable advice.Variable
	// Up says that the number grows: for a place, further from the long string;
	// for a contact, towards the far side; for a tip, higher; for a speed, faster.
	Up bool
}

// findChange names the change between two setups. Changed parts beyond the first
// in the order place, contact, tip, spin, speed, rack do not count; the adviser
// promises to change one.
func findChange(from, to drill.Setup) (r Remedy, changed bool) {
	a, b := from.ForSide(table.Left).Rounded(), to.ForSide(table.Left).Rounded()
	for _, part := range []struct {
		variable advice.Variable
		by       float64
	}{
		{advice.VaryPlace, math.Abs(float64(b.Cue.X)) - math.Abs(float64(a.Cue.X))},
		{advice.VaryPlace, float64(b.Cue.Y - a.Cue.Y)},
		{advice.VaryContact, float64(b.Contact - a.Contact)},
		{advice.VaryTip, float64(b.Tip - a.Tip)},
		{advice.VarySpin, float64(b.Spin - a.Spin)},
		{advice.VarySpeed, float64(b.Speed - a.Speed)},
	} {
		if part.by != 0 {
			return Remedy{Variable: part.variable, Up: part.by > 0}, true
		}
	}
	if a != b {
		return Remedy{Variable: advice.VaryRack}, true
	}
	return Remedy{}, false
}

// hasRemedy reports whether a change is among the remedies.
func (s Student) hasRemedy(change Remedy) bool { return slices.Contains(s.Remedies, change) }
