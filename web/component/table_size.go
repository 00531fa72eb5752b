package component

import (
	"slices"

	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/web/page"
)

// ListTableSizes are the sizes of table to choose from, the longest first; where two
// surfaces go by the same feet, the smaller says how large it is.
func ListTableSizes(u say.Units) []page.Option {
	sizes := table.Sizes()
	slices.Reverse(sizes)
	var options []page.Option
	for _, k := range sizes {
		words := say.Capitalize(k.Size()) + "-foot"
		if k.Small {
			words += ", " + SurfaceWords(k, u)
		}
		options = append(options, page.Option{Value: k.Size(), Words: words})
	}
	return options
}

// SurfaceWords says how large a playing surface is: "44 × 88 in".
func SurfaceWords(k table.Kind, u say.Units) string {
	return u.Number(say.Place, float64(k.Width())) + " × " + u.WithShort(say.Place, float64(k.Length()))
}

// SmallTableWords say that what is computed in advance for the adviser was computed on the
// usual table of these feet; "" for such a table.
func SmallTableWords(k table.Kind, u say.Units) string {
	if !k.Small {
		return ""
	}
	return "The computed breaks that are weighed here are of a table of " + usualSurface(k, u) + ". On this one of " + SurfaceWords(k, u) + " they say less: go by the counts first."
}

// SmallTableNote is the same in a line, for paper; "" for a usual table.
func SmallTableNote(k table.Kind, u say.Units) string {
	if !k.Small {
		return ""
	}
	return "Computed on a table of " + usualSurface(k, u) + "."
}

// usualSurface is the playing surface that usually goes by a table's feet.
func usualSurface(k table.Kind, u say.Units) string {
	k.Small = false
	return SurfaceWords(k, u)
}

// OtherKindWords says how a kind of table differs from the one that most broke on, and
// which it is: "Tighter table (9 ft, corners 4.25 in, sides 5 in)".
func OtherKindWords(k, usual table.Kind, u say.Units) string {
	words := "Tighter table"
	switch {
	case k.Length() < usual.Length():
		words = "Smaller table"
	case k.Length() > usual.Length():
		words = "Larger table"
	case k.CornerMouth > usual.CornerMouth || k.CornerMouth == usual.CornerMouth && k.SideMouth > usual.SideMouth:
		words = "Wider pockets"
	}
	return words + " (" + KindWithMouths(k, u) + ")"
}
