package rehearsal

import (
	"fmt"
	"math"
	"math/rand/v2"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Physics is a student whose breaks are computed from first principles: what is
// hidden is how their hands carry out what they are told. Where balls go follows
// from that, and is not up to this package. Everything is written for a break
// from the left; from the right it is the mirror image.
type Physics struct {
	Table *breaksim.Table

	// Pull is how far to the right of the contact told the head ball is met, on
	// average; Raise how far above the height told the tip strikes, Twist how far
	// to the right of it; Rush how much faster than told the stroke is.
	Pull         table.Inches
	Raise, Twist drill.RadiusFraction
	Rush         table.Mph

	// Scatter is that at a speed the student controls, that of the speed included.
	// Above ControlSpeed the aim and the tip widen by the factor e for every
	// 1/Widening mph.
	Scatter      breaksim.StrokeScatter
	ControlSpeed table.Mph
	Widening     float64

	// Slope of the cue at a speed up to LiftSpeed; above it the cue rises by SlopePerMph
	// for every mile an hour, as a shoulder thrown into the stroke lifts the butt.
	Slope       breaksim.Degrees
	LiftSpeed   table.Mph
	SlopePerMph breaksim.Degrees

	// OwnSpeed is the speed when none is told.
	OwnSpeed table.Mph

	Habit Habit
}

// Limits of what hands do, so that every setup that can be told can be broken.
const (
	softestStroke table.Mph        = 5
	steepestSlope breaksim.Degrees = 20
	wildestAim    breaksim.Degrees = 5 // standard deviation of aim
	furthestTip                    = breaksim.RadiusFraction(0.5)
)

// Break breaks one rack. It panics on a setup that drill.Setup.CheckPossible
// refuses, which no adviser may give.
func (p Physics) Break(s drill.Setup, rng *rand.Rand) drill.Break {
	if s.Side == table.Right {
		return p.breakFromLeft(s.Mirror(), rng).Mirror()
	}
	return p.breakFromLeft(s, rng)
}

func (p Physics) breakFromLeft(s drill.Setup, rng *rand.Rand) drill.Break {
	in := p.deliverStroke(s, rng)
	r, err := p.Table.ComputeBreak(in, rng)
	if err != nil {
		panic(fmt.Sprintf("rehearsal: %+v: %v", s, err))
	}
	return p.Habit.noteBreak(s, in.Speed, r, p.Table.Kind(), rng)
}

// deliverStroke turns what is told into what is done.
func (p Physics) deliverStroke(s drill.Setup, rng *rand.Rand) breaksim.BreakInput {
	instructed := s.Speed
	if instructed == 0 {
		instructed = p.OwnSpeed
	}
	speed := instructed + p.Rush + p.Scatter.Speed*table.Mph(rng.NormFloat64())
	speed = min(max(speed, softestStroke), breaksim.Fastest)
	wide := math.Max(1, math.Exp(p.Widening*float64(speed-p.ControlSpeed)))
	scatter := p.Scatter
	scatter.Speed = 0 // drawn above
	scatter.Aim = min(scatter.Aim*breaksim.Degrees(wide), wildestAim)
	scatter.Tip = min(scatter.Tip*breaksim.RadiusFraction(wide), furthestTip)
	slope := p.Slope + p.SlopePerMph*breaksim.Degrees(max(0, speed-p.LiftSpeed))
	tip := breaksim.RadiusFraction(s.Tip + p.Raise)
	return breaksim.BreakInput{
		Game: s.Game, Spot: s.Spot, Order: s.Order, Side: s.Side, Cue: s.Cue,
		Contact: s.Contact + p.Pull,
		Tip:     min(max(tip, -furthestTip), furthestTip), Spin: withinMiscue(tip, breaksim.RadiusFraction(s.Spin+p.Twist)),
		Speed: speed, Elevation: min(slope, steepestSlope), Scatter: scatter,
	}
}

// withinMiscue keeps the side spin such that the tip does not slip.
func withinMiscue(tip, spin breaksim.RadiusFraction) breaksim.RadiusFraction {
	room := breaksim.RadiusFraction(math.Sqrt(math.Max(0, float64(furthestTip*furthestTip-tip*tip))))
	return min(max(spin, -room), room)
}
