package belief

import (
	"math"
	"testing"
)

// How sure a gain is to help: the standard normal's table (Abramowitz and Stegun 1964,
// table 26.1), at the gain less what counts as one, in standard deviations of what else
// may be gained.
func TestEffect_AsSureAsTheModelIsRight(t *testing.T) {
	for _, c := range []struct{ deviations, chance float64 }{{0, 0.5}, {1, 0.84134}, {2, 0.97725}} {
		gain := LeastGain + c.deviations*gainSpread
		var gains, loses effectSum
		gains.add(0.5, gain, false)
		loses.add(0.5, -gain, false)
		if got := gains.mean(0.5); math.Abs(got.Help-c.chance) > 5e-6 || math.Abs(got.Gain-gain) > 1e-12 {
			t.Errorf("%v deviations: %+v, want a chance of %v to help", c.deviations, got, c.chance)
		}
		if got := loses.mean(0.5); math.Abs(got.Harm-c.chance) > 5e-6 {
			t.Errorf("%v deviations the other way: %+v, want a chance of %v to harm", c.deviations, got, c.chance)
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
