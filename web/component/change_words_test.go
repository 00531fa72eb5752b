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

// The two ends of a change are never said alike: where rounding would make them so, they are
// said in the finer unit alone.
func TestChangeWords_TellTheEndsApart(t *testing.T) {
	k := table.NineFoot()
	start := drill.StandardSetup(rack.NineBall, table.Left, k)
	start.Cue.X, start.Tip, start.Speed, start.Contact = -18, -0.1, 18, 0.2
	for _, c := range []struct {
		change                func(*drill.Setup)
		units                 say.Units
		words, arrow, instead string
	}{
		{func(s *drill.Setup) { s.Cue.X = -16 }, say.InchesAndMiles,
			"cue ball: about 1½ diamonds (18 in) left of the middle, on the head string → about 1¼ diamonds (16 in) left of the middle, on the head string",
			"cue ball 18 → 16 in out (about 1¼ diamonds)", "cue ball 16 in out (about 1¼ diamonds) instead of 18"},
		{func(s *drill.Setup) { s.Cue.X = -20.3 }, say.InchesAndMiles,
			"cue ball: 18 inches left of the middle, on the head string → 20.3 inches left of the middle, on the head string",
			"cue ball 18 → 20.3 in out", "cue ball 20.3 in out instead of 18"},
		{func(s *drill.Setup) { s.Cue.X = -20.3 }, say.Metric,
			"cue ball: 46 cm left of the middle, on the head string → 52 cm left of the middle, on the head string",
			"cue ball 46 → 52 cm out", "cue ball 52 cm out instead of 46"},
		{func(s *drill.Setup) { s.Tip = -0.15 }, say.InchesAndMiles,
			"tip: 0.1 of the radius below centre → 0.15 of the radius below centre",
			"tip 0.1 of the radius → 0.15 of the radius below centre", "tip 0.15 of the radius below centre instead of 0.1 of the radius"},
		{func(s *drill.Setup) { s.Speed = 18.2 }, say.Metric,
			"speed: 29 km/h → 29.3 km/h", "speed 29 → 29.3 km/h", "29.3 km/h instead of 29"},
		{func(s *drill.Setup) { s.Contact = 0.21 }, say.Metric,
			"contact: 5.1 mm right of full on the head ball → 5.3 mm right of full on the head ball",
			"contact 5.1 → 5.3 mm right of full", "contact 5.3 mm right of full instead of 5.1"},
	} {
		after := start
		c.change(&after)
		if got := ChangeWords(start, after, k, c.units); len(got) != 1 || got[0] != c.words {
			t.Errorf("%q, want %q", got, c.words)
		}
		if got := ArrowWords(start, after, k, c.units); got != c.arrow {
			t.Errorf("%q, want %q", got, c.arrow)
		}
		if got := InsteadWords(start, after, k, c.units); got != c.instead {
			t.Errorf("%q, want %q", got, c.instead)
		}
	}
}
