package main

import (
	"testing"

	"breakwright/internal/breaksim"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Three balls: the first hangs in a corner straight before the cue ball, the second
// went down, the third lies behind the first. Whichever is the lowest or the next, the
// others stand where they are.
func TestPairWorth(t *testing.T) {
	k := table.NineFoot()
	stopped := func(ball rack.Ball, x, y table.Inches) breaksim.BallEnd {
		return breaksim.BallEnd{Ball: ball, End: breaksim.Stopped, Place: table.Place{X: x, Y: y}}
	}
	r := breaksim.BreakResult{Balls: []breaksim.BallEnd{stopped(0, 10, 85), stopped(5, 23, 98), {Ball: 7, End: breaksim.Dropped}, stopped(9, -20, 50)}}
	list := numbered(r, k, 2, 0)
	if len(list) != 2 || list[0].Ball != 1 || list[0].Place.X != -20 || list[1].Ball != 2 || list[1].Place.X != 23 {
		t.Fatalf("%+v", list)
	}
	w := newPairWorth(3)
	w.add(r, k, rack.NineBall)
	if w.single[0].seen != 1 || w.single[1].seen != 0 || w.pair[0][2].seen != 1 || w.pair[0][1].seen != 0 {
		t.Errorf("%+v", w)
	}
	if hanging := w.single[0].tenThousandths(); hanging < 9500 || w.pair[0][2].tenThousandths() > hanging {
		t.Errorf("a ball that hangs straight ahead is made %d of 10000 times, with position %d", hanging, w.pair[0][2].tenThousandths())
	}
	// Without a cue ball there is no shot.
	r.Balls[0].End = breaksim.Dropped
	w.add(r, k, rack.NineBall)
	if lost := w.single[0]; lost.seen != 2 || lost.sum > 1 {
		t.Errorf("%+v", lost)
	}
}
