package table

import (
	"fmt"
	"slices"
	"strings"
)

// smallSize is what stands before the feet of a small table in its name.
const smallSize = "small "

// Sizes are the tables of every known size, with standard mouths, the shortest first.
func Sizes() []Kind {
	small := func(k Kind) Kind { k.Small = true; return k }
	return []Kind{small(SevenFoot()), SevenFoot(), small(EightFoot()), EightFoot(), NineFoot()}
}

// ParseSize returns the table of a size named as [Kind.Size] does, with standard mouths.
func ParseSize(name string) (Kind, error) {
	sizes := Sizes()
	i := slices.IndexFunc(sizes, func(k Kind) bool { return k.Size() == name })
	if i < 0 {
		var names []string
		for _, k := range sizes {
			names = append(names, k.Size())
		}
		return Kind{}, fmt.Errorf("a table of %q feet: %s are known", name, strings.Join(names, ", "))
	}
	return sizes[i], nil
}

// Size names the size of the table: "9", "8", "small 8".
func (k Kind) Size() string {
	if k.Small {
		return fmt.Sprintf("%s%d", smallSize, k.Feet)
	}
	return fmt.Sprint(k.Feet)
}

// SameSize reports whether two tables are as long, whatever their pockets.
func (k Kind) SameSize(other Kind) bool { return k.Feet == other.Feet && k.Small == other.Small }
