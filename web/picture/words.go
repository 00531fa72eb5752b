package picture

import (
	"math"

	"breakwright/internal/say"
	"breakwright/internal/table"
)

// CuePlaceWords says where a cue ball stands before the break: "18 inches left
// of the long string, on the head string".
func CuePlaceWords(p table.Place, k table.Kind, u say.Units) string {
	return acrossWords(p, u) + ", " + alongWords(p, k, u)
}

func acrossWords(p table.Place, u say.Units) string {
	if math.Round(float64(p.X)*10) == 0 {
		return "on the long string"
	}
	return u.Inches(absInches(p.X)) + " " + string(table.SideOf(p.X)) + " of the long string"
}

func alongWords(p table.Place, k table.Kind, u say.Units) string {
	behind := k.HeadString() - p.Y
	switch math.Round(float64(behind)*10) / 10 {
	case 0:
		return "on the head string"
	}
	if behind < 0 {
		return u.Inches(-behind) + " past the head string"
	}
	return u.Inches(behind) + " behind the head string"
}

// ContactWords says where the cue ball meets the head ball: "full", "0.2 inches
// right of full".
func ContactWords(contact table.Inches, u say.Units) string {
	if math.Round(float64(contact)*100) == 0 {
		return "full"
	}
	return u.Contact(absInches(contact)) + " " + string(table.SideOf(contact)) + " of full"
}

// KindWords names the size of the table: "Nine-foot table".
func KindWords(k table.Kind) string {
	words := map[int]string{7: "seven-foot table", 8: "eight-foot table", 9: "nine-foot table"}[k.Feet]
	if k.Small {
		words = "small " + words
	}
	return say.Capitalize(words)
}
