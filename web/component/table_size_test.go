package component

import (
	"strings"
	"testing"

	"breakwright/internal/say"
	"breakwright/internal/table"
)

// A small table's advice says by which table it was weighed; a usual one's says nothing.
func TestSmallTableWords_NameBothSurfaces(t *testing.T) {
	small := table.SevenFoot()
	small.Small = true
	if got := SmallTableWords(small, say.InchesAndMiles); !strings.Contains(got, "of 39 × 78 in") || !strings.Contains(got, "of 38 × 76 in") {
		t.Errorf("%q", got)
	}
	if got := SmallTableWords(table.SevenFoot(), say.InchesAndMiles); got != "" {
		t.Errorf("a usual table: %q", got)
	}
}

// A row of a class whose table is not the class's says in which way.
func TestOtherKindWords_SayTheDifference(t *testing.T) {
	smallEight := table.EightFoot()
	smallEight.Small = true
	wide := func(k table.Kind, corner, side table.Inches) table.Kind {
		k.CornerMouth, k.SideMouth = corner, side
		return k
	}
	for want, kinds := range map[string][2]table.Kind{
		"Tighter table (9 ft, corners 4.25 in, sides 5 in)":      {wide(table.NineFoot(), 4.25, 5), table.NineFoot()},
		"Tighter table (9 ft, corners 4.5 in, sides 4.75 in)":    {wide(table.NineFoot(), 4.5, 4.75), table.NineFoot()},
		"Wider pockets (9 ft, corners 5 in, sides 4.75 in)":      {wide(table.NineFoot(), 5, 4.75), table.NineFoot()},
		"Wider pockets (9 ft, corners 4.5 in, sides 5.25 in)":    {wide(table.NineFoot(), 4.5, 5.25), table.NineFoot()},
		"Smaller table (small 8 ft, corners 4.5 in, sides 5 in)": {smallEight, table.EightFoot()},
		"Larger table (8 ft, corners 4.5 in, sides 5 in)":        {table.EightFoot(), smallEight},
	} {
		if got := OtherKindWords(kinds[0], kinds[1], say.InchesAndMiles); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
