package picture

import (
	"math"
	"strconv"

	"breakwright/internal/table"
)

// UnitsPerInch is the scale of every picture of the table: tenths of an inch,
// so that most coordinates are short whole numbers and text is never smaller
// than one unit.
const UnitsPerInch = 10

// formatX writes a length or an x coordinate in user units, to a hundredth of an inch.
func formatX(v table.Inches) string { return formatUnits(float64(v) * UnitsPerInch) }

// formatY writes a y coordinate in user units: the foot end is at the top.
func formatY(y table.Inches) string { return formatUnits(-float64(y) * UnitsPerInch) }

// formatPlace writes a place as "x y" in user units.
func formatPlace(p table.Place) string { return formatX(p.X) + " " + formatY(p.Y) }

// translateTo returns the transform that carries a drawing made around 0,0 to a place.
func translateTo(p table.Place) string { return "translate(" + formatPlace(p) + ")" }

// formatUnits writes a number with at most one decimal and never as "-0". Pictures are
// mostly numbers, so whole tenths are written as the integers they are.
func formatUnits(f float64) string {
	var b [24]byte
	return string(appendUnits(b[:0], f))
}

func appendUnits(b []byte, f float64) []byte {
	tenths := math.Round(f * 10)
	if !(math.Abs(tenths) < 1<<53) { // beyond whole numbers, or none
		return strconv.AppendFloat(b, tenths/10, 'f', -1, 64)
	}
	n := int64(tenths)
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	b = strconv.AppendInt(b, n/10, 10)
	if n%10 != 0 {
		b = append(b, '.', byte('0'+n%10))
	}
	return b
}

// formatPercent writes a share of 0 to 1 as a coordinate of a chart: "23.3%".
func formatPercent(share float64) string {
	var b [24]byte
	return string(append(appendUnits(b[:0], share*100), '%'))
}
