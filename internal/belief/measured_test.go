package belief_test

import (
	"testing"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// A measured speed says how much faster than told the stroke is, whatever else the breaks
// show; readings that all are what was told say nothing.
func TestStudent_BelievesAMeasuredSpeed(t *testing.T) {
	instructed := setup().Speed
	if instructed == 0 {
		t.Fatal("the setup tells no speed")
	}
	faster := func(reading func(i int) table.Mph) float64 {
		breaks := breaksOf(t, 10, func(*breaksim.BreakInput) {}, 41)
		for i := range breaks {
			breaks[i].Speed = reading(i)
		}
		return float64(observed(t, breaks).MeanSpeedOffset())
	}
	unmeasured := faster(func(int) table.Mph { return 0 })
	if copied := faster(func(int) table.Mph { return instructed }); copied != unmeasured {
		t.Errorf("what was told, written down ten times, moves the speed believed from %+.2f to %+.2f", unmeasured, copied)
	}
	about := func(by table.Mph) func(int) table.Mph {
		return func(i int) table.Mph { return instructed + by + 0.5*table.Mph(i%3-1) }
	}
	if as, much := faster(about(0)), faster(about(3)); as > 0.5 || as < -0.5 || much < 1.5 || much > 4 {
		t.Errorf("measured as told it is believed %+.2f off, measured 3 faster %+.2f", as, much)
	}
	if once := faster(func(i int) table.Mph {
		if i == 4 {
			return instructed + 3
		}
		return 0
	}); once <= unmeasured || once >= faster(about(3)) {
		t.Errorf("measured 3 faster once it is believed %+.2f off, %+.2f unmeasured", once, unmeasured)
	}
}

// The order of readings, and of sets, changes nothing to the last bit.
func TestStudent_ReadingsInAnyOrder(t *testing.T) {
	breaks := breaksOf(t, 12, func(*breaksim.BreakInput) {}, 43)
	for i := range breaks {
		breaks[i].Speed = setup().Speed + 0.1*table.Mph(i*i%17)
	}
	turned := make([]drill.Break, 0, len(breaks))
	for i := range breaks {
		turned = append(turned, breaks[len(breaks)-1-i])
	}
	if one, other := observed(t, breaks).MeanSpeedOffset(), observed(t, turned).MeanSpeedOffset(); one != other {
		t.Errorf("in one order %v, in the other %v", one, other)
	}
}
