package picture

import (
	"fmt"
	"math"
	"strings"

	"breakwright/internal/table"
)

// InchesWords writes a length to the tenth: "18 inches", "1 inch", "0.3 inches".
func InchesWords(v table.Inches) string {
	tenth := table.Inches(math.Round(float64(v)*10) / 10)
	if tenth == 1 {
		return "1 inch"
	}
	return (tenth + 0).String() + " inches"
}

// CuePlaceWords says where a cue ball stands before the break: "18 inches left
// of the long string, on the head string".
func CuePlaceWords(p table.Place, k table.Kind) string {
	return acrossWords(p) + ", " + alongWords(p, k)
}

func acrossWords(p table.Place) string {
	if math.Round(float64(p.X)*10) == 0 {
		return "on the long string"
	}
	return InchesWords(absInches(p.X)) + " " + string(table.SideOf(p.X)) + " of the long string"
}

func alongWords(p table.Place, k table.Kind) string {
	behind := k.HeadString() - p.Y
	switch math.Round(float64(behind)*10) / 10 {
	case 0:
		return "on the head string"
	}
	if behind < 0 {
		return InchesWords(-behind) + " past the head string"
	}
	return InchesWords(behind) + " behind the head string"
}

// ContactWords says where the cue ball meets the head ball: "full", "0.2 inches
// to the right of full".
func ContactWords(contact table.Inches) string {
	if math.Round(float64(contact)*100) == 0 {
		return "full"
	}
	hundredth := table.Inches(math.Round(math.Abs(float64(contact))*100) / 100)
	unit := " inches"
	if hundredth == 1 {
		unit = " inch"
	}
	return hundredth.String() + unit + " to the " + string(table.SideOf(contact)) + " of full"
}

// KindWords names the size of the table: "Nine-foot table".
func KindWords(k table.Kind) string {
	switch k.Feet {
	case 7:
		return "Seven-foot table"
	case 8:
		return "Eight-foot table"
	}
	return "Nine-foot table"
}

// numberWords writes small numbers as words.
func numberWords(n int) string {
	words := [...]string{"none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}
	if n >= 0 && n < len(words) {
		return words[n]
	}
	return fmt.Sprint(n)
}

// formSentence begins with a capital and ends with a full stop.
func formSentence(s string) string {
	if s == "" {
		return ""
	}
	return strings.ToUpper(s[:1]) + s[1:] + "."
}

// joinWithAnd joins with commas and "and".
func joinWithAnd(parts []string) string {
	switch len(parts) {
	case 0:
		return ""
	case 1:
		return parts[0]
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1]
}
