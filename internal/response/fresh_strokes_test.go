//go:build !quick

package response_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"breakwright/internal/breaksim"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// freshBreaks computes breaks that the networks were not made from.
func freshBreaks(t *testing.T, s response.Stroke, r response.Rack, n int) (wing, scratch float64) {
	t.Helper()
	tb, err := breaksim.NewTable(breaksim.Defaults(), table.NineFoot())
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(31, 7))
	k := tb.Kind()
	for range n {
		result, err := tb.ComputeBreak(breaksim.BreakInput{
			Game: r.Game, Spot: r.Spot, Side: table.Left, Cue: table.Place{X: -s.Out, Y: k.HeadString() - s.Behind},
			Contact: s.Contact, Tip: breaksim.RadiusFraction(s.Tip), Speed: s.Speed, Elevation: 3,
			Scatter: breaksim.StrokeScatter{Aim: 0.2, Speed: 0.5, Tip: 0.05, Place: 0.2, Gap: s.Gap},
		}, rng)
		if err != nil {
			t.Fatal(err)
		}
		if end, _ := result.BallInSlot(r.Game.WingSlot(table.Left)); end.End == breaksim.Dropped && end.Pocket == table.FootLeft {
			wing++
		}
		if result.CueBallEnd().End == breaksim.Dropped {
			scratch++
		}
	}
	return wing / float64(n), scratch / float64(n)
}

// The error on fresh strokes: rates within ten points of 400 computed breaks on one
// table, where the model is of tables on the whole,
// whose own standard error is two and a half points.
func TestPredict_HoldsItsErrorOnFreshStrokes(t *testing.T) {
	const breaks, tolerance = 400, 0.1
	for _, r := range response.Racks() {
		for name, s := range map[string]response.Stroke{
			"ordinary": ordinaryStroke(), "central": with(func(s *response.Stroke) { s.Out = 10 }),
			"off full": with(func(s *response.Stroke) { s.Contact = 0.25 }), "draw": with(func(s *response.Stroke) { s.Tip = -0.3 }),
		} {
			wing, scratch := freshBreaks(t, s, r, breaks)
			p := response.Predict(s, r, table.NineFoot())
			if got := chanceOf(p, response.Wing, response.WingMade); math.Abs(got-wing) > tolerance {
				t.Errorf("%v, %s: wing ball %.3f, computed %.3f", r, name, got, wing)
			}
			if got := chanceOf(p, response.Scratch, 1); math.Abs(got-scratch) > tolerance {
				t.Errorf("%v, %s: scratch %.3f, computed %.3f", r, name, got, scratch)
			}
		}
	}
}
