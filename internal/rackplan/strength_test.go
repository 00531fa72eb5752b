package rackplan

import (
	"math"
	"testing"

	"breakwright/internal/rack"
)

// nineFootRack is what was computed of nine-ball on 9 feet.
func nineFootRack(t *testing.T) (ComputedSize, ComputedRack) {
	t.Helper()
	size, base, err := computed().find(9, rack.NineBall, rack.HeadOnSpot)
	if err != nil {
		t.Fatal(err)
	}
	return size, base
}

// likeComputed counts breaks whose balls end as the computed ones do.
func likeComputed(base ComputedRack, breaks float64) observations {
	of := func(c ComputedBall) tally {
		t := tally{seen: breaks, gone: breaks * float64(c.Gone) / 10000}
		for z, n := range c.Cells {
			t.cells[z] = breaks * float64(n) / 10000
			t.placed += t.cells[z]
		}
		return t
	}
	own := observations{breaks: int(breaks), cue: of(base.Cue)}
	for _, slot := range base.Slots {
		own.slots = append(own.slots, of(slot))
	}
	return own
}

// Who breaks as computed students do is believed to, as far as trust goes; who always
// leaves every ball in the same place, where computed ones seldom do, is not; and
// nothing is known of who has not broken.
func TestStrengthFor(t *testing.T) {
	_, base := nineFootRack(t)
	most := base.Strength * trust
	if s := strengthFor(base, likeComputed(base, 40)); s != most {
		t.Errorf("like the computed ones: strength %g, want %g", s, most)
	}
	if s := strengthFor(base, observations{slots: make([]tally, len(base.Slots))}); s != most {
		t.Errorf("no breaks: strength %g, want %g", s, most)
	}
	odd := likeComputed(base, 0)
	for i := range odd.slots {
		odd.slots[i].seen, odd.slots[i].placed, odd.slots[i].cells[i] = 40, 40, 40
	}
	if s := strengthFor(base, odd); s > most/16 {
		t.Errorf("like nobody: strength %g of %g", s, most)
	}
}

// Worked by hand: 2·3·4 and 0.5·1.5.
func TestLogRising(t *testing.T) {
	for _, c := range []struct{ x, n, want float64 }{{2, 3, 24}, {0.5, 2, 0.75}, {7, 0, 1}} {
		if got := math.Exp(logRising(c.x, c.n)); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%g rising %g times is %g, want %g", c.x, c.n, got, c.want)
		}
	}
}

// With nothing of one's own, an order is worth what its leaves were on computed
// breaks.
func TestCorrections_GiveTheComputedLeaves(t *testing.T) {
	size, base := nineFootRack(t)
	for _, goal := range []Goal{GoalPosition, GoalShot} {
		s := size
		if goal == GoalShot {
			s = size.anyPosition()
		}
		m := modelFor(rack.NineBall, &s, base, observations{slots: make([]tally, len(base.Slots))}, goal)
		for i := range m.slots {
			if got, want := m.single[i]*m.by.single[i], float64(base.Single[i])/10000; math.Abs(got-want) > 1e-9 {
				t.Errorf("%s, slot %d: %.4f, computed %.4f", goal, i, got, want)
			}
			for j := range m.slots {
				want := float64(base.Single[i]) / 10000
				if goal == GoalPosition {
					want = float64(base.Pair[i][j]) / 10000
				}
				if got := m.pair[i][j] * m.by.pair[i][j]; i != j && math.Abs(got-want) > 1e-9 {
					t.Errorf("%s, slots %d and %d: %.4f, computed %.4f", goal, i, j, got, want)
				}
			}
		}
	}
}

// Whose cue ball and balls always come to rest in one cell each has the same shot
// every time, better or worse than the table says: with two balls changing places,
// two such shots and two such positions.
func TestLayoutError_OfSomebodyWhoseBreaksAreAllAlike(t *testing.T) {
	size := ComputedSize{}
	for z := range size.Shot {
		for to := range size.Shot[z] {
			size.Shot[z][to], size.Position[z][to] = 1000, 1000
		}
	}
	slots := make([]spread, 9)
	for i := range slots {
		slots[i].cell[i] = 1
	}
	cue := spread{}
	cue.cell[20] = 1
	m := newModel(rack.NineBall, &size, cue, slots)
	order, err := rack.ParseOrder(rack.NineBall, "1-2-3-4-9-5-6-7-8")
	if err != nil {
		t.Fatal(err)
	}
	to, err := order.SwapSlots(rack.NineBall, "2L", "2R")
	if err != nil {
		t.Fatal(err)
	}
	// The 1 in the head slot stays the lowest; only the next ball differs.
	if got, want := m.layoutError(order, to), positionScatter*math.Sqrt2; math.Abs(got-want) > 1e-9 {
		t.Errorf("%.4f, want %.4f", got, want)
	}
	if got := m.layoutError(order, order); got != 0 {
		t.Errorf("the same order has an error of %g", got)
	}
}
