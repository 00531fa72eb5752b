package rackplan

import (
	"math"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// placedAlike is so many breaks that all left the 1 hanging in the right foot corner,
// the 2 on the head rail behind the 7, 8 and 9, and the 3 in front of a side pocket.
func placedAlike(breaks int) drill.Set {
	set := drill.Set{Kind: table.NineFoot(), Setup: drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot())}
	for i := range breaks {
		b := drill.Break{Number: i + 1, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: 10, Y: 80}},
			Rest: []drill.RestingBall{{Ball: 1, Place: table.Place{X: 22, Y: 97}}, {Ball: 2, Place: table.Place{X: 0, Y: 1.1}}, {Ball: 3, Place: table.Place{X: 22, Y: 55}},
				{Ball: 7, Place: table.Place{X: 0, Y: 3.4}}, {Ball: 8, Place: table.Place{X: -2.3, Y: 1.1}}, {Ball: 9, Place: table.Place{X: 2.3, Y: 1.1}}}}
		for ball := rack.Ball(4); ball <= 6; ball++ {
			b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: ball, Pocket: table.FootLeft})
		}
		set.Breaks = append(set.Breaks, b)
	}
	return set
}

// With the 2 and the 3 changed the next ball is the one by the side pocket: each own
// leave says so alike, and what is left open is the plain error, with one break more
// that might have gone the other way.
func TestPlayOwnLeaves(t *testing.T) {
	set := placedAlike(30)
	from := set.Setup.Order
	slotOf := func(ball rack.Ball) rack.Slot {
		i, _ := slotIndex(rack.NineBall, from, ball)
		return rack.NineBall.Slots()[i]
	}
	to, err := from.SwapSlots(rack.NineBall, slotOf(2), slotOf(3))
	if err != nil {
		t.Fatal(err)
	}
	gain, ok := playOwnLeaves([]drill.Set{set}, from, to, GoalPosition)
	if !ok || gain.mean < 0.2 {
		t.Fatalf("%+v, %v", gain, ok)
	}
	if want := math.Hypot(gain.mean/math.Sqrt(29*30), plainError); math.Abs(gain.sd-want) > 1e-9 {
		t.Errorf("known to %.4f, want %.4f", gain.sd, want)
	}
	if right, _ := playOwnLeaves([]drill.Set{set.Mirror()}, from, to, GoalPosition); right != gain {
		t.Errorf("from the right %+v", right)
	}
	if back, _ := playOwnLeaves([]drill.Set{set}, to, from, GoalPosition); back.mean != -gain.mean {
		t.Errorf("back again brings %g", back.mean)
	}
	if shot, _ := playOwnLeaves([]drill.Set{set}, from, to, GoalShot); shot.mean != 0 {
		t.Errorf("the shot on the 1 changed by %g", shot.mean)
	}
	if _, ok := playOwnLeaves([]drill.Set{placedAlike(FewestBreaks - 1)}, from, to, GoalPosition); ok {
		t.Error("too few leaves say something")
	}
	unplaced := placedAlike(30)
	for i := range unplaced.Breaks {
		unplaced.Breaks[i].Rest = unplaced.Breaks[i].Rest[:1]
	}
	if _, ok := playOwnLeaves([]drill.Set{unplaced}, from, to, GoalPosition); ok {
		t.Error("balls that were not placed say something")
	}
}

// Two estimates as sure as one another meet halfway, and are no surer together.
func TestEstimate_JoinedWith(t *testing.T) {
	if got := (gainEstimate{1, 0.5}).joinedWith(gainEstimate{2, 0.5}); got != (gainEstimate{1.5, 0.5}) {
		t.Errorf("%+v", got)
	}
	if got := (gainEstimate{1, 1}).joinedWith(gainEstimate{2, 0.5}); math.Abs(got.mean-1.8) > 1e-12 || got.sd != 0.5 {
		t.Errorf("%+v", got)
	}
}
