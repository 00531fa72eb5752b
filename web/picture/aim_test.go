package picture_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"breakwright/internal/rack"
	"breakwright/internal/table"
	"breakwright/web/picture"
)

// The geometry of a hit: the balls touch, and the cue ball's line passes the
// head ball's centre at the contact's distance, on the side its sign says.
func TestAimAt_MeetsTheHeadBallAsTold(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	k := table.NineFoot()
	r := picture.RackedBalls{Game: rack.NineBall, Spot: rack.HeadOnSpot, Order: rack.NineBall.PracticeOrder(table.Left)}
	head := r.Game.HeadBallPlace(r.Spot, k)
	for range 500 {
		c := picture.CueBall{
			Place:   table.Place{X: table.Inches(rng.Float64()*45 - 22.5), Y: table.Inches(15 + rng.Float64()*10)},
			Contact: table.Inches(rng.Float64()*2 - 1), Aim: true,
		}
		a, ok := picture.FindAimLine(c, r, k)
		if !ok {
			t.Fatalf("no line for %v", c)
		}
		if d := a.Ghost.Distance(head); math.Abs(float64(d-table.BallDiameter)) > 1e-9 {
			t.Errorf("%v: the balls are %v in apart", c, d)
		}
		// Positive to the right of the way: the cross product of head to line.
		way := table.Place{X: a.Ghost.X - c.Place.X, Y: a.Ghost.Y - c.Place.Y}
		length := a.Ghost.Distance(c.Place)
		right := ((a.Ghost.X-head.X)*way.Y - (a.Ghost.Y-head.Y)*way.X) / length
		if math.Abs(float64(right-c.Contact)) > 1e-9 {
			t.Errorf("%v: passes %v in to the right of the head ball", c, right)
		}
	}
}

func TestAimAt_FullHitPointsWhereTheRackSays(t *testing.T) {
	for _, g := range rack.Games() {
		for _, spot := range g.Spots() {
			for _, k := range kinds() {
				for x := table.Inches(-17); x <= 17; x += 0.5 {
					at := table.Place{X: x, Y: k.HeadString()}
					r := picture.RackedBalls{Game: g, Spot: spot, Order: g.PracticeOrder(table.Left)}
					a, ok := picture.FindAimLine(picture.CueBall{Place: at}, r, k)
					want := g.SlotInLine(at, spot, k)
					if tie := x == 0; !ok || a.Target != want && !tie {
						t.Errorf("%s on %v from %v: target %s, the rack says %s", g, k, at, a.Target, want)
					}
				}
			}
		}
	}
}

func TestAimAt_NoLineWithoutAHit(t *testing.T) {
	k := table.NineFoot()
	r := picture.RackedBalls{Game: rack.NineBall, Spot: rack.HeadOnSpot, Order: rack.NineBall.PracticeOrder(table.Left)}
	for _, c := range []picture.CueBall{
		{Place: k.HeadSpot(), Contact: 2.25}, {Place: k.HeadSpot(), Contact: -3},
		{Place: k.FootSpot()}, {Place: table.Place{X: 0, Y: 74}},
		{Place: k.HeadSpot(), Contact: table.Inches(math.NaN())},
	} {
		if a, ok := picture.FindAimLine(c, r, k); ok {
			t.Errorf("%v has a line: %v", c, a)
		}
	}
}
