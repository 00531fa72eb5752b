package breaksim

import (
	"errors"
	"math"
	"testing"

	"breakwright/internal/table"
)

// A ball straight between the cue ball and a corner goes down, the cue ball after
// a stun stays where it met it, or nearly (a head-on elastic hit of equal balls).
func TestPlay_StraightShot(t *testing.T) {
	tb := nineFoot(t, nil)
	r, err := tb.PlayLayout(Layout{
		Cue: table.Place{X: 5, Y: 80}, Aim: 45, Speed: 5, Tip: -0.1,
		Balls: []PlacedBall{{3, table.Place{X: 10, Y: 85}}, {7, table.Place{X: -20, Y: 20}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Pocketed) != 1 || r.Pocketed[0].Ball != 3 || r.Pocketed[0].Pocket != table.FootRight {
		t.Errorf("pocketed %v", r.Pocketed)
	}
	if r.Hit == nil || r.Hit.Ball != 3 || r.Hit.Fullness < 0.999 || r.Cue.End != Stopped || r.Cue.Place.Distance(table.Place{X: 8.4, Y: 83.4}) > 3 {
		t.Errorf("hit %+v, cue ball %+v", r.Hit, r.Cue)
	}
}

// A ball hit half full leaves at 30 degrees from the cue ball's line, less some
// throw (arcsin of half; references of the package for throw: under 5 degrees).
func TestPlay_HalfBall(t *testing.T) {
	tb := nineFoot(t, nil)
	aim := math.Asin(float64(table.BallRadius)/30) * 180 / math.Pi
	r, err := tb.PlayLayout(Layout{Cue: table.Place{Y: 20}, Aim: Degrees(aim), Speed: 8, Balls: []PlacedBall{{1, table.Place{Y: 50}}}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "fullness", r.Hit.Fullness, 0.5, 0.01)
	if r.Hit.Offset < 0 {
		t.Errorf("aimed to the right, hit %s in to the right", r.Hit.Offset)
	}
}

func TestPlay_Refuses(t *testing.T) {
	tb := nineFoot(t, nil)
	good := Layout{Cue: table.Place{Y: 20}, Speed: 5, Balls: []PlacedBall{{1, table.Place{Y: 50}}}}
	for name, spoil := range map[string]func(*Layout){
		"overlap":   func(l *Layout) { l.Balls = append(l.Balls, PlacedBall{2, table.Place{Y: 51}}) },
		"twice":     func(l *Layout) { l.Balls = append(l.Balls, PlacedBall{1, table.Place{Y: 60}}) },
		"off cloth": func(l *Layout) { l.Cue.X = 26 },
		"no place":  func(l *Layout) { l.Cue.X = table.Inches(math.NaN()) },
		"no speed":  func(l *Layout) { l.Speed = 0 },
		"miscue":    func(l *Layout) { l.Tip = 0.9 },
		"no aim":    func(l *Layout) { l.Aim = Degrees(math.NaN()) },
		"too many":  func(l *Layout) { l.Balls = make([]PlacedBall, 16) },
	} {
		l := good
		l.Balls = append([]PlacedBall(nil), good.Balls...)
		spoil(&l)
		if _, err := tb.PlayLayout(l); !errors.Is(err, ErrInput) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := tb.PlayLayout(good); err != nil {
		t.Error(err)
	}
}
