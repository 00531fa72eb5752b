package belief

import (
	"math"
	"testing"

	"breakwright/internal/drill"
)

// How sure a gain is to help: the standard normal's table (Abramowitz and Stegun 1964,
// table 26.1), at the gain less what counts as one, in standard deviations of tables. What
// is hit otherwise gains less alike from table to table.
func TestEffect_AsSureAsTablesAreAlike(t *testing.T) {
	from := drill.Setup{}
	for _, c := range []struct {
		name       string
		to         drill.Setup
		help, harm float64
	}{
		{"the tip", drill.Setup{Tip: 0.1}, 0.84134, 0.00135},
		{"the speed", drill.Setup{Speed: 1}, 0.84134, 0.00135},
		{"the contact", drill.Setup{Contact: 0.1}, 0.69146, 0.06681},
	} {
		sum := effectSum{spread: SpreadOf(from, c.to)}
		sum.add(0.5, 0.1, false)
		got := sum.mean(0.5)
		if math.Abs(got.Help-c.help) > 5e-6 || math.Abs(got.Harm-c.harm) > 5e-6 || math.Abs(got.Gain-0.1) > 1e-12 {
			t.Errorf("%s: %+v, want a chance of %v to help and of %v to harm", c.name, got, c.help, c.harm)
		}
	}
}

// More of the way than all is no more than chances can be; no way changes nothing.
func TestParts_Towards(t *testing.T) {
	from, to := Parts{Down: 0.5, Wing: 0.9, Scratch: 0.1, Middle: 0.3}, Parts{Down: 0.6, Wing: 1, Scratch: 0.02, Middle: 0.3}
	if got := from.Towards(to, 0); got != from {
		t.Errorf("no way: %+v", got)
	}
	got := from.Towards(to, 1.5)
	if math.Abs(got.Down-0.65) > 1e-12 || got.Wing != 1 || got.Scratch != 0 || got.Middle != 0.3 {
		t.Errorf("half as much again: %+v", got)
	}
}
