package breaksim

import (
	"fmt"
	"math"
	"testing"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// The contact asked for is the contact made: a hit c inches right of full covers
// 1 - c/2.25 of the head ball (geometry), from any place, with its roll and
// speed told as they are on arrival.
func TestHit_IsWhatWasAskedFor(t *testing.T) {
	tb := nineFoot(t, nil)
	for _, x := range []table.Inches{-20, -5, 0} {
		for _, contact := range []table.Inches{-0.5, 0, 0.3} {
			in := leftBreak()
			in.Cue.X, in.Contact = x, contact
			r := mustBreak(t, tb, in, nil)
			if r.Hit == nil || r.Hit.Slot != rack.HeadSlot || r.Hit.Ball != 1 {
				t.Fatalf("from %s, contact %s: first hit %+v, want the head ball", x, contact, r.Hit)
			}
			name := fmt.Sprintf("from %s, contact %s: ", x, contact)
			near(t, name+"offset", float64(r.Hit.Offset), float64(contact), 1e-5)
			near(t, name+"fullness", r.Hit.Fullness, 1-math.Abs(float64(contact))/2.25, 1e-5)
			if !(r.Hit.Speed < 18 && r.Hit.Speed > 16) || !(r.Hit.Roll < 0 && r.Hit.Roll > -0.25) {
				t.Errorf("%sarrives at %s mph with roll %.3f", name, r.Hit.Speed, r.Hit.Roll)
			}
		}
	}
}

// A cue ball aimed past the rack touches nothing and moves nothing.
func TestBreak_MissesTheRack(t *testing.T) {
	tb := nineFoot(t, nil)
	in := leftBreak()
	in.Speed, in.Scatter = 2, StrokeScatter{Aim: 10}
	for i := range 200 {
		r := mustBreak(t, tb, in, seeded(i))
		if r.Hit != nil {
			continue
		}
		if r.Rails != 0 || !r.IsWeak() || r.Balls[1].LeftAt != 0 || r.CuePath != PathBack {
			t.Errorf("without a touch: rails %d, weak %v, head ball left at %s", r.Rails, r.IsWeak(), r.Balls[1].LeftAt)
		}
		return
	}
	t.Fatal("no break missed the rack")
}

// Paths are whole: legs join in place and time, start where the ball stood, end
// where it ended, and never leave the table's outline; what was counted can be
// seen on them.
func TestPath_TellsTheSameStory(t *testing.T) {
	tb := nineFoot(t, nil)
	in := leftBreak()
	in.Scatter, in.Paths = human(), true
	for i := range 40 {
		r := mustBreak(t, tb, in, seeded(i))
		for k, b := range r.Balls {
			checkPath(t, fmt.Sprintf("break %d ball %d", i, k), b)
			past := false
			for _, p := range b.Path.SamplePlaces(0.25) {
				past = past || p.Y < tb.kind.HeadString()-0.05
			}
			if k != cue && past && !b.PastString {
				t.Errorf("break %d ball %d went past the head string, untold", i, k)
			}
		}
	}
}

func checkPath(t *testing.T, name string, b BallEnd) {
	t.Helper()
	if len(b.Path) == 0 {
		if b.LeftAt != 0 {
			t.Errorf("%s moved and has no path", name)
		}
		return
	}
	for i, l := range b.Path[1:] {
		before := b.Path[i]
		if before.To.Distance(l.From) > 1e-3 || l.Start < before.End-1e-9 {
			t.Errorf("%s: leg %d starts at %v, %.6f s, the one before ends at %v, %.6f s", name, i+1, l.From, l.Start, before.To, before.End)
		}
	}
	if last := b.Path[len(b.Path)-1]; b.End == Stopped && last.To.Distance(b.Place) > 1e-3 {
		t.Errorf("%s: the path ends at %v, the ball at %v", name, last.To, b.Place)
	}
	points := b.Path.SamplePlaces(0.25)
	for i, p := range points {
		if p.X < -28 || p.X > 28 || p.Y < -3 || p.Y > 103 {
			t.Errorf("%s: the path goes to %v", name, p)
		}
		if i > 0 && p.Distance(points[i-1]) > 0.2501 {
			t.Errorf("%s: points %v and %v are too far apart", name, points[i-1], p)
		}
	}
}

// A leg is the ball's motion: its middle in time is the Bézier's middle.
func TestLeg_At(t *testing.T) {
	l := PathLeg{From: table.Place{X: 0, Y: 0}, Control: table.Place{X: 2, Y: 0}, To: table.Place{X: 2, Y: 2}, Start: 1, End: 3}
	for seconds, want := range map[float64]table.Place{0: {X: 0, Y: 0}, 1: {X: 0, Y: 0}, 2: {X: 1.5, Y: 0.5}, 3: {X: 2, Y: 2}, 9: {X: 2, Y: 2}} {
		if got := l.PlaceAt(seconds); got != want {
			t.Errorf("at %g s: %v, want %v", seconds, got, want)
		}
		if got, ok := (BallPath{l}).PlaceAt(seconds); !ok || got != want {
			t.Errorf("on the path at %g s: %v, want %v", seconds, got, want)
		}
	}
	if _, ok := (BallPath{}).PlaceAt(1); ok {
		t.Error("an empty path has a place")
	}
}

// The head string is crossed where a path turns, too, not only at its ends.
func TestLowest_SeesTheTurn(t *testing.T) {
	for _, c := range []struct{ p, v, a, t, want float64 }{
		{1, -2, 2, 2, 0}, {1, -2, 2, 0.5, 0.25}, {1, 1, -4, 1, 0}, {1, 2, 2, 1, 1}, {1, -1, 0, 1, 0},
	} {
		near(t, fmt.Sprintf("lowest of %g%+gt%+gt²/2 to %g", c.p, c.v, c.a, c.t), lowestBetween(c.p, c.v, c.a, c.t), c.want, 1e-15)
	}
}

// The cue ball's way is told in the break log's words.
func TestCuePath_Words(t *testing.T) {
	tb := nineFoot(t, nil)
	count := func(tip RadiusFraction) map[CuePath]int {
		in := leftBreak()
		in.Tip, in.Scatter = tip, human()
		n := map[CuePath]int{}
		for i := range 60 {
			n[mustBreak(t, tb, in, seeded(i)).CuePath]++
		}
		return n
	}
	draw, plain, follow := count(-0.3), count(0), count(0.3)
	if draw[PathHeadRail] < 30 || follow[PathForward] < 25 || plain[PathBack] < 15 || plain[PathHit] == 0 {
		t.Errorf("draw %v, plain %v, follow %v", draw, plain, follow)
	}
}

// A loosened rack has no overlaps, its gaps grow with the scatter asked for, and
// many balls still touch a neighbour.
func TestLoosen_GapsAndNoOverlap(t *testing.T) {
	tb := nineFoot(t, nil)
	var mean []float64
	for _, gap := range []table.Inches{0.001, 0.01, 0.1} {
		in := leftBreak()
		in.Scatter.Gap = gap
		sum, pairs, least := 0.0, 0, math.Inf(1)
		for i := range 50 {
			s := tb.setUpBreak(in, seeded(i))
			for a := 1; a < s.n; a++ {
				for b := a + 1; b < s.n; b++ {
					g := s.c.gapBetween(s.balls[a].p, s.balls[b].p)
					least = min(least, g)
					if g < 0.5*tb.c.radius {
						sum, pairs = sum+g, pairs+1
					}
				}
			}
		}
		if least < -1e-15 {
			t.Errorf("gap %s: balls overlap by %g m", gap, -least)
		}
		mean = append(mean, sum/float64(pairs)/gap.Metres())
	}
	t.Logf("mean gap by scatter asked for: %.2f", mean)
	for _, m := range mean {
		if m < 0.2 || m > 2 {
			t.Errorf("mean gaps by the scatter asked for: %.2f, want about 1", mean)
		}
	}
}
