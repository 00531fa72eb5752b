package say

import (
	"math"

	"breakwright/internal/table"
)

// quarters are a diamond's parts, as the trade says them.
var quarters = [...]string{"", "¼", "½", "¾"}

// Diamonds writes a length in diamonds, to the nearest quarter: "1½ diamonds",
// "about ¾ diamond". spacing is the table's own, an eighth of its length (WPA
// equipment specification s.6) and so a quarter of its width. Of less than an eighth
// of a diamond it makes nothing.
func Diamonds(length, spacing table.Inches) string {
	if spacing == 0 {
		return ""
	}
	exact := math.Abs(float64(length / spacing))
	n := int(math.Round(exact * 4))
	if n == 0 {
		return ""
	}
	words := quarters[n%4]
	if n >= 4 {
		words = digits(n/4) + words
	}
	if math.Abs(exact*4-float64(n)) > 0.04 { // a hundredth of a diamond, an eighth of an inch
		words = "about " + words
	}
	if n > 4 {
		return words + " diamonds"
	}
	return words + " diamond"
}

// LengthInDiamonds writes a length on the table as the trade says it, and measured:
// "about 1½ diamonds (18 in)".
func (u Units) LengthInDiamonds(length, spacing table.Inches) string {
	if diamonds := Diamonds(length, spacing); diamonds != "" {
		return diamonds + " (" + u.WithShort(Place, math.Abs(float64(length))) + ")"
	}
	return u.Length(table.Inches(math.Abs(float64(length))))
}

// LengthBeside is LengthInDiamonds for one end of a change: where the other end is as many
// diamonds, they would say that nothing changed, and the length is measured alone.
func (u Units) LengthBeside(length, other, spacing table.Inches) string {
	if length == other || Diamonds(length, spacing) != Diamonds(other, spacing) {
		return u.LengthInDiamonds(length, spacing)
	}
	return u.inFull(Place, math.Abs(float64(length)), math.Abs(float64(other)))
}

// out says how far from the long string a place is on the statement's table, where
// that is known.
func (s Statement) out(r Reader, to float64) string {
	return r.Units.LengthInDiamonds(table.Inches(to), table.Inches(s.Diamond)) + " from the middle"
}
