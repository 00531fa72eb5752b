package breaksim

import (
	"errors"
	"fmt"
	"math"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// RadiusFraction is a distance from the centre of the cue ball by its radius.
type RadiusFraction float64

// Degrees is an angle.
type Degrees float64

// BreakInput is a setup as in the break log: what the breaker is asked to do, and how
// steadily it is done. The zero Spot is the game's usual one, the zero Side the
// side the cue ball stands on, the zero Order the game's practice rack for it.
type BreakInput struct {
	Game  rack.Game
	Spot  rack.Spot
	Order rack.Order
	Side  table.Side
	// Cue is where the cue ball stands.
	Cue table.Place
	// Contact is where the cue ball is sent at the head ball: inches from a full
	// hit, positive to the right as the breaker sees it.
	Contact table.Inches
	// Tip is the height of the tip, draw negative; Spin its place across, right
	// positive.
	Tip, Spin RadiusFraction
	// Speed of the cue ball along the cloth as it leaves the tip.
	Speed table.Mph
	// Elevation is the slope of the cue, 0 when level. A cue that must clear a
	// rail slopes by 2 to 5 degrees (common practice, no source).
	Elevation Degrees
	// Scatter is used when Break is given a random source.
	Scatter StrokeScatter
	// Paths asks for the path of every ball in the Result.
	Paths bool
}

// StrokeScatter holds standard deviations of normal errors; all zero is a machine.
type StrokeScatter struct {
	// Aim turns the line of the cue ball.
	Aim Degrees
	// Speed is added to the speed.
	Speed table.Mph
	// Tip moves the tip up and down and, drawn apart, across.
	Tip RadiusFraction
	// Place moves the cue ball each way along and across.
	Place table.Inches
	// Gap moves each racked ball each way, before balls that would overlap are
	// pushed apart: 0 is a tight rack.
	Gap table.Inches
}

// ScatterOf returns the scatter of a stroke so many times as wide as an ordinary one, of a
// rack whose balls stand so loosely. How the parts widen together is assumed, no source.
func ScatterOf(unsteady float64, gap table.Inches) StrokeScatter {
	return StrokeScatter{
		Aim: Degrees(0.2 * unsteady), Speed: table.Mph(0.5 * unsteady),
		Tip: RadiusFraction(0.05 * math.Sqrt(unsteady)), Place: 0.2, Gap: gap,
	}
}

// Limits of what is believed of an Input.
const (
	Fastest   table.Mph      = 40
	MiscueTip RadiusFraction = 0.55 // Alciatore TP 2.1: typical measured limit
	Steepest  Degrees        = 45
	WidestGap                = table.BallRadius / 2
)

// ErrInput is wrapped by every refusal of an Input.
var ErrInput = errors.New("this break cannot be computed")

// withDefaults fills in what was left empty.
func (in BreakInput) withDefaults() BreakInput {
	if in.Spot == "" {
		in.Spot = in.Game.Spots()[0]
	}
	if in.Side == "" {
		in.Side = table.SideOf(in.Cue.X)
	}
	if in.Order.IsZero() {
		in.Order = in.Game.PracticeOrder(in.Side)
	}
	return in
}

// checkPossible refuses what cannot be computed, in words a coach understands.
func (in BreakInput) checkPossible(k table.Kind) error {
	if _, err := rack.ParseGame(string(in.Game)); err != nil {
		return fmt.Errorf("%w: %w", ErrInput, err)
	}
	in = in.withDefaults()
	if _, err := rack.ParseSpot(string(in.Spot)); err != nil {
		return fmt.Errorf("%w: %w", ErrInput, err)
	}
	if _, err := table.ParseSide(string(in.Side)); err != nil {
		return fmt.Errorf("%w: %w", ErrInput, err)
	}
	if err := in.Order.Check(in.Game); err != nil {
		return fmt.Errorf("%w: %w", ErrInput, err)
	}
	if says := in.describeFault(k); says != "" {
		return fmt.Errorf("%w: %s", ErrInput, says)
	}
	return nil
}

func (in BreakInput) describeFault(k table.Kind) string {
	head := in.Game.HeadBallPlace(in.Spot, k)
	s := in.Scatter
	switch {
	case !k.OnCloth(in.Cue) || k.SettleBall(in.Cue) != in.Cue:
		return "the cue ball must stand on the cloth, clear of the rails"
	case !(in.Cue.Y <= head.Y-2*table.BallDiameter):
		return "the cue ball must stand well in front of the rack"
	case !(magnitude(in.Contact) < table.BallDiameter):
		return "the contact is less than a ball's width from full: further out misses the head ball"
	case !(math.Hypot(float64(in.Tip), float64(in.Spin)) <= float64(MiscueTip)):
		return fmt.Sprintf("the tip strikes at most %g of the radius from centre: further out is a miscue", float64(MiscueTip))
	case !(in.Speed > 0 && in.Speed <= Fastest):
		return fmt.Sprintf("the speed is more than 0 and at most %s mph", Fastest)
	case !(in.Elevation >= 0 && in.Elevation <= Steepest):
		return fmt.Sprintf("the cue's slope is from 0 to %g degrees", float64(Steepest))
	case !(s.Aim >= 0 && s.Aim <= 10) || !(s.Speed >= 0 && s.Speed <= 10) || !(s.Tip >= 0 && s.Tip <= 0.5) ||
		!(s.Place >= 0 && s.Place <= 10) || !(s.Gap >= 0 && s.Gap <= WidestGap):
		return "the scatter must be from 0 to 10 degrees, 10 mph, half a radius, 10 inches and a quarter ball of gap"
	}
	return ""
}

func magnitude[T ~float64](v T) T { return T(math.Abs(float64(v))) }

// Mirror returns the break from the other side of the table. Mirroring twice is
// the identity for an Input whose Side and Order are given.
func (in BreakInput) Mirror() BreakInput {
	in = in.withDefaults()
	in.Order = in.Order.Mirror(in.Game)
	in.Side = in.Side.Mirror()
	in.Cue = in.Cue.Mirror()
	in.Contact, in.Spin = table.FlipSign(in.Contact), table.FlipSign(in.Spin)
	return in
}
