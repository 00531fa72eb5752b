package picture

import (
	"math"

	"breakwright/internal/say"
	"breakwright/internal/table"
)

// CuePlaceWords says where a cue ball stands before the break: "about 1½ diamonds
// (18 in) left of the middle, on the head string".
func CuePlaceWords(p table.Place, k table.Kind, u say.Units) string {
	return CuePlaceWordsBeside(p, p, k, u)
}

// CuePlaceWordsBeside is CuePlaceWords beside the place at the other end of a change.
func CuePlaceWordsBeside(p, other table.Place, k table.Kind, u say.Units) string {
	return acrossWordsBeside(p.X, other.X, k.DiamondSpacing(), u) + ", " + alongWords(p, other, k, u)
}

// acrossWords says a place across a table whose diamonds are not known.
func acrossWords(x table.Inches, u say.Units) string { return acrossWordsBeside(x, x, 0, u) }

// acrossWordsBeside says a place across the table beside the other end of a change.
func acrossWordsBeside(x, other, spacing table.Inches, u say.Units) string {
	if math.Round(float64(x)*10) == 0 {
		return "in the middle"
	}
	return u.LengthBeside(absInches(x), absInches(other), spacing) + " " + string(table.SideOf(x)) + " of the middle"
}

func alongWords(p, other table.Place, k table.Kind, u say.Units) string {
	behind := k.HeadString() - p.Y
	switch math.Round(float64(behind)*10) / 10 {
	case 0:
		return "on the head string"
	}
	if behind < 0 {
		return u.Length(-behind) + " past the head string"
	}
	return u.LengthBeside(behind, k.HeadString()-other.Y, k.DiamondSpacing()) + " behind the head string"
}

// ContactWords says where the cue ball meets the head ball: "full", "0.2 inches
// right of full".
func ContactWords(contact table.Inches, u say.Units) string {
	return ContactWordsBeside(contact, contact, u)
}

// ContactWordsBeside is ContactWords beside the hit at the other end of a change.
func ContactWordsBeside(contact, other table.Inches, u say.Units) string {
	if math.Round(float64(contact)*100) == 0 {
		return "full"
	}
	return u.ContactBeside(absInches(contact), absInches(other)) + " " + string(table.SideOf(contact)) + " of full"
}

// KindWords names the size of the table: "Nine-foot table".
func KindWords(k table.Kind) string {
	words := map[int]string{7: "seven-foot table", 8: "eight-foot table", 9: "nine-foot table"}[k.Feet]
	if k.Small {
		words = "small " + words
	}
	return say.Capitalize(words)
}
