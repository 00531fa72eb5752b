package rehearsal

import (
	"math"
	"math/rand/v2"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Curve is a student made of response curves: simple shapes for how each part
// of a setup bears on each thing that is watched. Everything is written for a
// break from the left; from the right it is the mirror image.
//
// The wing ball drops when a latent error is within a tolerance. The error is
// in inches of cue-ball place, positive when the effect is that of a place too
// far out; a quarter inch of contact does what four inches of place do
// (coaching practice; a physical model of the break gives about the same).
type Curve struct {
	Kind table.Kind

	// Place is the best distance of the cue ball from the long string.
	Place table.Inches
	// Tolerance is how large an error may be; Spread is its standard deviation
	// from stroke to stroke, at a speed the student controls.
	Tolerance, Spread table.Inches
	// Kiss is the chance that another ball spoils the wing ball's way.
	Kiss float64

	// Pull is how far to the right of the contact told the head ball is met, on
	// average, in a break from the left: positive is towards the far side.
	Pull          table.Inches
	ContactSpread table.Inches

	// Tip is the tip height at which the cue ball stops in mid window; it stops
	// PerTip further from the head rail for each tenth of a radius above that.
	Tip            drill.RadiusFraction
	PerTip         table.Inches
	CueX           table.Inches // where it stops across, on average, after a full hit
	SpreadX        table.Inches
	SpreadY        table.Inches
	MovedByAnother float64 // the chance that another ball moves it

	// OwnSpeed is the speed when none is told. Below NeededSpeed breaks are weak, above
	// ControlSpeed the stroke widens, above FlySpeed balls leave the table.
	OwnSpeed, NeededSpeed, ControlSpeed, FlySpeed table.Mph

	Habit Habit
}

// InchesOfPlace is how many inches of place an inch of contact is worth.
const InchesOfPlace = 4 / 0.25

// Break breaks one rack.
func (c Curve) Break(s drill.Setup, rng *rand.Rand) drill.Break {
	if s.Side == table.Right {
		return c.breakFromLeft(s.Mirror(), rng).Mirror()
	}
	return c.breakFromLeft(s, rng)
}

// deliveredStroke is one delivery of the cue.
type deliveredStroke struct {
	speed   table.Mph
	wide    float64 // by what factor everything spreads
	contact table.Inches
	draw    float64 // tenths of a radius below the best tip height
}

func (c Curve) breakFromLeft(s drill.Setup, rng *rand.Rand) drill.Break {
	st := c.drawStroke(s, rng)
	r := ballAccount{order: s.Order.Balls()}
	var b drill.Break
	c.playWingBall(s, st, &b, &r, rng)
	c.playCueBall(st, &b, &r, rng)
	c.playOtherBalls(s, st, &b, &r, rng)
	if c.Habit.Speeds {
		b.Speed = table.Mph(math.Round(float64(st.speed)*10) / 10)
	}
	return b
}

func (c Curve) drawStroke(s drill.Setup, rng *rand.Rand) deliveredStroke {
	instructed := s.Speed
	if instructed == 0 {
		instructed = c.OwnSpeed
	}
	st := deliveredStroke{speed: instructed + table.Mph(0.4*rng.NormFloat64())}
	st.wide = max(1, math.Exp(0.12*float64(st.speed-c.ControlSpeed)))
	st.contact = s.Contact + c.Pull + c.ContactSpread*table.Inches(st.wide*rng.NormFloat64())
	st.draw = 10 * float64(c.Tip-s.Tip)
	return st
}

// drawWingError is the wing ball's error of one stroke. A contact towards the far side
// turns the line of centres at the head ball as a place further in does.
func (c Curve) drawWingError(s drill.Setup, st deliveredStroke, rng *rand.Rand) table.Inches {
	out := -s.Cue.X - c.Place
	return out - InchesOfPlace*st.contact + c.Spread*table.Inches(st.wide*rng.NormFloat64())
}

// errorSpread is the standard deviation of latent at a controlled speed.
func (c Curve) errorSpread() float64 {
	return math.Hypot(float64(c.Spread), float64(InchesOfPlace*c.ContactSpread))
}

// tableScale is the table's size beside a 9-foot one.
func (c Curve) tableScale() table.Inches { return c.Kind.Width() / table.NineFoot().Width() }

// normalCDF climbs from 0 to 1 around a middle, as a normal distribution does.
func normalCDF[T ~float64](v, middle, spread T) float64 {
	return math.Erfc(-float64((v-middle)/spread)/math.Sqrt2) / 2
}

// drawChance is true with probability p.
func drawChance(p float64, rng *rand.Rand) bool { return rng.Float64() < p }
