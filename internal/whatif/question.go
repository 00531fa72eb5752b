package whatif

import (
	"fmt"
	"math"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Question is a setup broken again and again on a kind of table by somebody
// with these hands. Questions can be compared with == after Canonical.
type Question struct {
	Kind table.Kind
	// Setup is what the breaker is asked to do. Its speed must be given: "your own
	// controlled speed" cannot be computed.
	Setup drill.Setup
	// Window is where the cue ball should stop.
	Window table.Window
	// Scatter is how steadily it is done, and how tight the rack is.
	Scatter breaksim.StrokeScatter
	Breaks  int
}

// MostBreaks bounds a question.
const MostBreaks = 5000

// Limits of the scatter that can be asked about: far beyond what is seen
// (common practice, no source).
const (
	WildestAim   breaksim.Degrees        = 5
	WildestSpeed table.Mph               = 5
	WildestTip   breaksim.RadiusFraction = 0.3
	WildestPlace table.Inches            = 3
	LoosestRack  table.Inches            = 0.1
)

// Canonical brings every part to the grain in which questions are told apart:
// that of setups, and a thousandth for the scatter.
func (q Question) Canonical() Question {
	q.Setup = q.Setup.Rounded()
	s := &q.Scatter
	s.Aim, s.Speed, s.Tip = thousandth(s.Aim), thousandth(s.Speed), thousandth(s.Tip)
	s.Place, s.Gap = thousandth(s.Place), thousandth(s.Gap)
	return q
}

func thousandth[T ~float64](v T) T { return T(math.Round(float64(v)*1000)/1000) + 0 }

// Key tells canonical questions apart, as text.
func (q Question) Key() string {
	q = q.Canonical()
	s := q.Setup
	return fmt.Sprint(q.Kind, " ", s.Game, s.Spot, s.Order, s.Side, s.Wing, " ", s.Cue, " ", s.Contact, s.Tip, s.Spin, s.Speed,
		" ", q.Window, q.Scatter, q.Breaks)
}

// Mirror is the question from the other side of the table. Mirroring twice is
// the identity.
func (q Question) Mirror() Question {
	q.Setup, q.Window = q.Setup.Mirror(), q.Window.Mirror()
	return q
}

// Check says what cannot be asked. The setup's fields have the break log's
// names; the others are scatter_aim, scatter_speed, scatter_tip, scatter_place,
// scatter_gap, window and number.
func (q Question) Check() error {
	var p drill.Problems
	if err := q.Setup.Check(q.Kind); err != nil {
		problems, ok := err.(drill.Problems)
		if !ok {
			return err
		}
		p = append(p, problems...)
	}
	if q.Setup.Speed == 0 {
		p.Add("speed", "give a speed: the model cannot know their own controlled speed")
	}
	if err := q.Window.Check(q.Kind); err != nil {
		p.Add("window", err.Error())
	}
	s := q.Scatter
	refuse := func(field string, v, most float64, unit string) {
		if !(v >= 0 && v <= most) {
			p.Add(field, fmt.Sprintf("from 0 to %g %s", most, unit))
		}
	}
	refuse("scatter_aim", float64(s.Aim), float64(WildestAim), "degrees")
	refuse("scatter_speed", float64(s.Speed), float64(WildestSpeed), "miles an hour")
	refuse("scatter_tip", float64(s.Tip), float64(WildestTip), "of the radius")
	refuse("scatter_place", float64(s.Place), float64(WildestPlace), "inches")
	refuse("scatter_gap", float64(s.Gap), float64(LoosestRack), "inches")
	if q.Breaks < 1 || q.Breaks > MostBreaks {
		p.Add("number", fmt.Sprintf("from 1 to %d breaks", MostBreaks))
	}
	return p.Err()
}

// breakInput is the question as the model takes it.
func (q Question) breakInput() breaksim.BreakInput {
	s := q.Setup
	return breaksim.BreakInput{
		Game: s.Game, Spot: s.Spot, Order: s.Order, Side: s.Side, Cue: s.Cue,
		Contact: s.Contact, Tip: breaksim.RadiusFraction(s.Tip), Spin: breaksim.RadiusFraction(s.Spin),
		Speed: s.Speed, Scatter: q.Scatter,
	}
}

// LowBalls lists the balls that are followed beside the wing ball: the three lowest
// others, and in eight-ball, where no ball must be played first, the head ball
// and those of row two.
func (q Question) LowBalls() []rack.Ball {
	s := q.Setup
	wing := s.WingBall()
	var low []rack.Ball
	if s.Game == rack.EightBall {
		for _, slot := range s.Game.Slots()[:3] {
			b, _ := s.Order.BallAt(s.Game, slot)
			low = append(low, b)
		}
		return low
	}
	for b := rack.Ball(1); len(low) < 3 && int(b) <= s.Game.BallCount(); b++ {
		if b != wing {
			low = append(low, b)
		}
	}
	return low
}
