package breaksim

import (
	"math"
	"math/rand/v2"
	"testing"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// nineFoot is a 9-foot table with the defaults, changed by the given function.
func nineFoot(t testing.TB, change func(*ModelParams)) *Table {
	t.Helper()
	p := Defaults()
	if change != nil {
		change(&p)
	}
	tb, err := NewTable(p, table.NineFoot())
	if err != nil {
		t.Fatal(err)
	}
	return tb
}

// elastic makes balls that lose nothing on one another and do not rub.
func elastic(c constants) *constants {
	c.restitution, c.damping = 1, 0
	c.muFloor, c.muExtra = 0, 0
	return &c
}

// leftBreak is the break a lesson usually begins with, from the left.
func leftBreak() BreakInput {
	return BreakInput{
		Game: rack.NineBall, Spot: rack.HeadOnSpot, Side: table.Left,
		Order: rack.NineBall.PracticeOrder(table.Left),
		Cue:   table.Place{X: -18, Y: 25}, Tip: -0.1, Speed: 18,
	}
}

// human is the scatter of a practised breaker (assumed).
func human() StrokeScatter {
	return StrokeScatter{Aim: 0.2, Speed: 0.5, Tip: 0.05, Place: 0.2, Gap: 0.003}
}

func seeded(i int) *rand.Rand { return rand.New(rand.NewPCG(20, uint64(i))) }

func mustBreak(t testing.TB, tb *Table, in BreakInput, rng *rand.Rand) BreakResult {
	t.Helper()
	r, err := tb.ComputeBreak(in, rng)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// rollingBall rolls along x at a speed.
func rollingBall(c *constants, speed float64) ballState {
	return ballState{v: vec{x: speed}, w: vec{y: speed / c.radius}}
}

// settled lets a ball's phases end by themselves until it rolls or rests.
func settled(c *constants, b ballState) ballState {
	c.startPhase(&b, b.from)
	for b.phase == sliding || b.phase == airborne {
		c.endPhase(&b)
	}
	return b
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %.9g, want %.9g ± %.2g", what, got, want, tolerance)
	}
}

func degrees(radians float64) float64 { return radians * 180 / math.Pi }
func radians(degrees float64) float64 { return degrees * math.Pi / 180 }
