package rehearsal

import (
	"math/rand/v2"
	"testing"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// resultWithBallsAt is a nine-ball result with every ball at rest out of the way but those
// named; the cue ball lies at cue.
func resultWithBallsAt(cue table.Place, places map[rack.Ball]table.Place) breaksim.BreakResult {
	order := rack.NineBall.PracticeOrder(table.Left)
	r := breaksim.BreakResult{Game: rack.NineBall, CuePath: breaksim.PathBack, Rails: 6, PastString: 2}
	r.Balls = append(r.Balls, breaksim.BallEnd{End: breaksim.Stopped, Place: cue})
	for _, slot := range rack.NineBall.Slots() {
		ball, _ := order.BallAt(rack.NineBall, slot)
		end := breaksim.BallEnd{Ball: ball, Slot: slot, End: breaksim.Dropped, Pocket: table.FootRight}
		if at, stays := places[ball]; stays {
			end.End, end.Pocket, end.Place = breaksim.Stopped, "", at
		}
		r.Balls = append(r.Balls, end)
	}
	return r
}

func TestNote_FollowsTheHabits(t *testing.T) {
	k := table.NineFoot()
	s := drill.StandardSetup(rack.NineBall, table.Left, k)
	wing := s.WingBall()
	r := resultWithBallsAt(table.Place{X: 1.234, Y: 40}, map[rack.Ball]table.Place{wing: {X: -20, Y: 80}, s.HeadBall(): {X: 3, Y: 30}, 9: {X: 10, Y: 80}})
	for _, ball := range r.Balls {
		if ball.End == breaksim.Dropped {
			r.Pocketed = append(r.Pocketed, breaksim.Pocketed{Ball: ball.Ball, Pocket: ball.Pocket})
		}
	}
	for i := range r.Balls {
		if r.Balls[i].Ball == wing {
			r.Balls[i].Met = breaksim.MetBall
		}
	}
	diligent := Habit{Misses: true, Paths: true, Rails: true, Shots: true, Rests: true, Speeds: true}
	b := diligent.noteBreak(s, 18.04, r, k, rand.New(rand.NewPCG(1, 1)))
	if b.WingMiss != drill.MissKissed || b.CuePath != drill.PathBack || b.Rails == nil || *b.Rails != 6 || b.Shot != drill.ShotOpen || b.Speed != 18 {
		t.Errorf("diligent: %+v", b)
	}
	if len(b.Rest) != 1 || b.Rest[0].Ball != s.HeadBall() || b.Cue.Place != (table.Place{X: 1.2, Y: 40}) {
		t.Errorf("rests %v, cue %v", b.Rest, b.Cue)
	}
	b = Habit{}.noteBreak(s, 18, r, k, rand.New(rand.NewPCG(1, 1)))
	if b.WingMiss != "" || b.CuePath != "" || b.Rails != nil || b.Shot != "" || b.Rest != nil || b.Speed != 0 {
		t.Errorf("nothing but what must be: %+v", b)
	}
}

func TestNote_TheCueBallsEnds(t *testing.T) {
	for _, c := range []struct {
		end  breaksim.BallEnd
		want drill.CueEnd
	}{
		{breaksim.BallEnd{End: breaksim.Dropped, Pocket: table.SideLeft}, drill.CueEnd{How: drill.Scratched, Scratch: table.SideLeft}},
		{breaksim.BallEnd{End: breaksim.OffTable, Place: table.Place{X: 60}}, drill.CueEnd{How: drill.OffTable}},
		{breaksim.BallEnd{End: breaksim.Stopped, Place: table.Place{X: -0.01, Y: 3.14}}, drill.CueEnd{How: drill.Stopped, Place: table.Place{Y: 3.1}}},
		// Hanging in a side pocket's jaws, beyond the noses.
		{breaksim.BallEnd{End: breaksim.Stopped, Place: table.Place{X: -25.7, Y: 50.9}}, drill.CueEnd{How: drill.Stopped, Place: table.Place{X: -25, Y: 50.9}}},
	} {
		if got := cueEndOf(c.end, table.NineFoot()); got != c.want {
			t.Errorf("%+v: %+v", c.end, got)
		}
	}
}

// The shot that is left is package leave's answer for where all the balls stopped, those that
// nobody would write down too.
func TestShotOf_OfAllBalls(t *testing.T) {
	k := table.NineFoot()
	setup := drill.StandardSetup(rack.NineBall, table.Left, k)
	cue, aside := table.Place{X: 0, Y: 25}, table.Place{X: -15, Y: 80}
	for name, c := range map[string]struct {
		places map[rack.Ball]table.Place
		end    drill.CueOutcome
		want   drill.Shot
	}{
		"straight into a side pocket":  {map[rack.Ball]table.Place{2: {X: 12, Y: 37}, 9: aside}, drill.Stopped, drill.ShotOpen},
		"the lowest ball is behind it": {map[rack.Ball]table.Place{2: {X: 0, Y: 60}, 5: {X: 0, Y: 45}, 9: aside}, drill.Stopped, drill.ShotNone},
		"on the head rail, too sharp":  {map[rack.Ball]table.Place{2: {X: 0, Y: 1.2}, 9: aside}, drill.Stopped, drill.ShotHard},
		"nothing is left to shoot at":  {nil, drill.Stopped, ""},
		"a scratch":                    {map[rack.Ball]table.Place{2: {X: 12, Y: 37}, 9: aside}, drill.Scratched, ""},
	} {
		b := drill.Break{Cue: drill.CueEnd{How: c.end, Place: cue}}
		for _, ball := range setup.Order.Balls() {
			if _, up := c.places[ball]; !up {
				b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: ball, Pocket: table.FootLeft})
			}
		}
		if got := shotOf(b, resultWithBallsAt(cue, c.places), setup, k); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}
