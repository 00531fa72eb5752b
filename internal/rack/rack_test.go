package rack

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"breakwright/internal/table"
)

// Geometry of a frozen rack of 2.25-inch balls: rows 1.9486 in apart, so that
// with the 1 on the spot of a 9-foot table the 9 stands at y 78.897 and the
// wing balls at x ±2.25; with the 9 on it the 1 stands at 71.103 and the wing
// balls at y 75. On an 8-foot table 72.897, 65.103 and 69. Worked independently
// from the ball's diameter (WPA equipment specification s.16).
func TestPlace_PublishedSlots(t *testing.T) {
	for _, want := range []struct {
		kind table.Kind
		spot Spot
		slot Slot
		x, y float64
	}{
		{table.NineFoot(), HeadOnSpot, "1", 0, 75},
		{table.NineFoot(), HeadOnSpot, "2R", 1.125, 76.9486},
		{table.NineFoot(), HeadOnSpot, "3C", 0, 78.897},
		{table.NineFoot(), HeadOnSpot, "3L", -2.25, 78.897},
		{table.NineFoot(), HeadOnSpot, "4L", -1.125, 80.846},
		{table.NineFoot(), HeadOnSpot, "5", 0, 82.794},
		{table.NineFoot(), CentreOnSpot, "1", 0, 71.103},
		{table.NineFoot(), CentreOnSpot, "3R", 2.25, 75},
		{table.EightFoot(), HeadOnSpot, "3C", 0, 72.897},
		{table.EightFoot(), CentreOnSpot, "1", 0, 65.103},
		{table.EightFoot(), CentreOnSpot, "3L", -2.25, 69},
	} {
		got, ok := NineBall.SlotPlace(want.slot, want.spot, want.kind)
		if !ok || math.Abs(float64(got.X)-want.x) > 5e-4 || math.Abs(float64(got.Y)-want.y) > 5e-4 {
			t.Errorf("%d ft, %s on the spot, slot %s at %v (%v), want %g,%g",
				want.kind.Feet, want.spot, want.slot, got, ok, want.x, want.y)
		}
	}
}

func TestPlace_NeighboursTouch(t *testing.T) {
	for _, g := range Games() {
		slots := g.Slots()
		touching := 0
		for i, a := range slots {
			for _, b := range slots[:i] {
				p, _ := g.SlotPlace(a, HeadOnSpot, table.NineFoot())
				q, _ := g.SlotPlace(b, HeadOnSpot, table.NineFoot())
				gap := float64(p.Distance(q) - table.BallDiameter)
				if gap < -1e-9 {
					t.Errorf("%s: slots %s and %s overlap by %g in", g, a, b, -gap)
				}
				if gap < 1e-9 {
					touching++
				}
			}
		}
		// Contacts of a close-packed diamond of 9, triangle of 10 and of 15.
		if want := map[Game]int{NineBall: 16, TenBall: 18, EightBall: 30}[g]; touching != want {
			t.Errorf("%s: %d contacts in the rack, want %d", g, touching, want)
		}
	}
}

// WPA rules of play: 2016, 2.2 (nine-ball), 2008, 9.2 (ten-ball), 3.2 (eight-ball,
// from a league's text).
func TestParseOrder_OnlyLegalOrders(t *testing.T) {
	for _, c := range []struct {
		game  Game
		order string
		legal bool
	}{
		{NineBall, "1-3-2-8-9-5-6-4-7", true},
		{NineBall, "1-2-3-4-9-5-6-7-8", true},
		{NineBall, "2-1-3-4-9-5-6-7-8", false},
		{NineBall, "1-9-3-4-2-5-6-7-8", false},
		{NineBall, "1-2-2-4-9-5-6-7-8", false},
		{NineBall, "1-2-3-4-9-5-6-7", false},
		{NineBall, "1-2-3-4-9-5-6-7-10", false},
		{NineBall, "1-2-x-4-9-5-6-7-8", false},
		{NineBall, "", false},
		{TenBall, "1-2-3-4-10-5-6-7-8-9", true},
		{TenBall, "1-2-3-4-9-5-6-7-8-10", false},
		{EightBall, "1-9-2-10-8-3-4-11-5-12-6-13-7-14-15", true},
		{EightBall, "9-1-2-10-8-3-4-11-5-12-6-13-7-14-15", true},
		{EightBall, "1-9-2-10-8-3-4-11-5-12-15-13-7-14-6", true},
		{EightBall, "1-9-2-10-8-3-4-11-5-12-14-13-7-6-15", false},
		{EightBall, "8-9-2-10-1-3-4-11-5-12-6-13-7-14-15", false},
	} {
		o, err := ParseOrder(c.game, c.order)
		if (err == nil) != c.legal {
			t.Errorf("%s %q: %v", c.game, c.order, err)
		}
		if err != nil && !errors.Is(err, ErrOrder) {
			t.Errorf("%s %q: %v does not wrap ErrOrder", c.game, c.order, err)
		}
		if err == nil && o.String() != c.order {
			t.Errorf("%q written is %q", c.order, o)
		}
	}
}

func TestPractice_LowBallsInRowTwo(t *testing.T) {
	for _, side := range []table.Side{table.Left, table.Right} {
		o := NineBall.PracticeOrder(side)
		far, near := Slot("2R"), Slot("2L")
		if side == table.Right {
			far, near = near, far
		}
		if b, _ := o.BallAt(NineBall, far); b != 2 {
			t.Errorf("%s: the far side of row 2 holds the %s, want the 2", side, b)
		}
		if b, _ := o.BallAt(NineBall, near); b != 3 {
			t.Errorf("%s: the near side of row 2 holds the %s, want the 3", side, b)
		}
	}
}

func TestOrder_MirrorSwapShuffle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.SampledFrom(Games()).Draw(t, "game")
		o := ShuffleOrder(g, rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1)))
		if err := o.Check(g); err != nil {
			t.Fatalf("a shuffled order is illegal: %v", err)
		}
		if m := o.Mirror(g); m.Check(g) != nil || m.Mirror(g) != o {
			t.Fatalf("%s mirrored twice is %s", o, m.Mirror(g))
		}
		if read, err := ParseOrder(g, o.String()); err != nil || read != o {
			t.Fatalf("%s read back is %s (%v)", o, read, err)
		}
		a := rapid.SampledFrom(g.Slots()).Draw(t, "a")
		b := rapid.SampledFrom(g.Slots()).Draw(t, "b")
		swapped, err := o.SwapSlots(g, a, b)
		if swapped.Check(g) != nil {
			t.Fatalf("swapping %s and %s left an illegal order %s", a, b, swapped)
		}
		if back, errBack := swapped.SwapSlots(g, a, b); err == nil && (errBack != nil || back != o) {
			t.Fatalf("swapping %s and %s twice gives %s (%v)", a, b, back, errBack)
		}
	})
}

// In a fair nine-ball shuffle each of the seven free balls stands in each of
// the seven free slots equally often: a chi-square over the 49 cells has 36
// degrees of freedom, 99.9 % point 67.99 (standard table, from memory).
func TestShuffle_IsFair(t *testing.T) {
	const deals = 14000
	rng := rand.New(rand.NewPCG(7, 7))
	var seen [9][10]float64
	for range deals {
		o := ShuffleOrder(NineBall, rng)
		for i := range NineBall.Slots() {
			seen[i][o.balls[i]]++
		}
	}
	chi := 0.0
	for i, slot := range NineBall.Slots() {
		if _, fixed := NineBall.FixedBall(slot); fixed {
			continue
		}
		for b := 2; b <= 8; b++ {
			d := seen[i][b] - deals/7
			chi += d * d / (deals / 7)
		}
	}
	if chi > 67.99 {
		t.Errorf("chi-square %.1f over 36 degrees of freedom", chi)
	}
}

func TestSlotInLine_FullHitPointsAcrossTheRack(t *testing.T) {
	k := table.NineFoot()
	if got := NineBall.SlotInLine(table.Place{X: 0, Y: 25}, HeadOnSpot, k); got != "5" {
		t.Errorf("from the head spot the line runs on to %s, want the tail", got)
	}
	left := NineBall.SlotInLine(table.Place{X: -18, Y: 25}, HeadOnSpot, k)
	right := NineBall.SlotInLine(table.Place{X: 18, Y: 25}, HeadOnSpot, k)
	if left != "4R" || right != left.Mirror() {
		t.Errorf("from the left %s, from the right %s: want 4R and its mirror", left, right)
	}
}
