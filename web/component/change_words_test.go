package component

import (
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

// A change of the tip is said in tips, and as a part of the radius where tips would say
// that nothing changes.
func TestChangeWords_OfTheTip(t *testing.T) {
	k := table.NineFoot()
	for _, c := range []struct {
		before, after  drill.RadiusFraction
		arrow, instead string
	}{
		{-0.1, -0.3, "tip a quarter of a tip → three quarters of a tip below centre (0.3 of the radius)",
			"tip three quarters of a tip below centre (0.3 of the radius) instead of a quarter of a tip"},
		{-0.1, 0.1, "tip a quarter of a tip below centre → a quarter of a tip above centre (0.1 of the radius)",
			"tip a quarter of a tip above centre (0.1 of the radius) instead of a quarter of a tip below centre"},
		{0.1, 0, "tip a quarter of a tip above centre → centre ball",
			"tip centre ball instead of a quarter of a tip above centre"},
		{-0.1, -0.15, "tip 0.1 of the radius → 0.15 of the radius below centre",
			"tip 0.15 of the radius below centre instead of 0.1 of the radius"},
	} {
		before, after := drill.StandardSetup(rack.NineBall, table.Left, k), drill.StandardSetup(rack.NineBall, table.Left, k)
		before.Tip, after.Tip = c.before, c.after
		if got := ArrowWords(before, after, k, say.InchesAndMiles); got != c.arrow {
			t.Errorf("%v to %v: %q, want %q", c.before, c.after, got, c.arrow)
		}
		if got := InsteadWords(before, after, k, say.InchesAndMiles); got != c.instead {
			t.Errorf("%v to %v: %q, want %q", c.before, c.after, got, c.instead)
		}
	}
}
