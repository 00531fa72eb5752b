package demo

import (
	"math/rand/v2"
	"slices"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/rehearsal"
	"breakwright/internal/table"
)

// handsFault is what is wrong with somebody's hands, drawn from a range. The whole
// class is given the same setup, so that a fault is always in how it is carried
// out. All ranges are assumptions: steadiness as in package breaksim's own
// trials, the rest common practice, no source.
type handsFault func(p *rehearsal.Physics, d handsDraw)

// handsDraw draws what is hidden about somebody.
type handsDraw struct{ rng *rand.Rand }

func (d handsDraw) drawBetween(low, high float64) float64 { return low + (high-low)*d.rng.Float64() }

// drawInches draws a length, parts a share of the ball's radius, mph a speed.
func (d handsDraw) drawInches(low, high float64) table.Inches {
	return table.Inches(d.drawBetween(low, high))
}
func (d handsDraw) drawFraction(low, high float64) drill.RadiusFraction {
	return drill.RadiusFraction(d.drawBetween(low, high))
}
func (d handsDraw) drawSpeed(low, high float64) table.Mph { return table.Mph(d.drawBetween(low, high)) }

// drawHands are those of somebody who nearly does what they are asked to do, with a fault.
// They have no table yet.
func (d handsDraw) drawHands(f handsFault) rehearsal.Physics {
	p := rehearsal.Physics{
		Pull: d.drawInches(-0.03, 0.03), Raise: d.drawFraction(-0.03, 0.03), Rush: d.drawSpeed(-0.5, 0.5),
		Scatter: breaksim.StrokeScatter{
			Aim: breaksim.Degrees(d.drawBetween(0.1, 0.2)), Speed: 0.4, Tip: breaksim.RadiusFraction(d.drawBetween(0.03, 0.06)),
			Place: d.drawInches(0.1, 0.3), Gap: d.drawInches(0.001, 0.003),
		},
		OwnSpeed: drill.UsualSpeed, ControlSpeed: drill.UsualSpeed + 1, Widening: 0.12,
		Slope: breaksim.Degrees(d.drawBetween(2, 4)), LiftSpeed: drill.UsualSpeed + 4, SlopePerMph: 3,
	}
	f(&p, d)
	p.Habit = d.drawHabit()
	return p
}

// drawHabit is what somebody takes the trouble to write down. The club's students
// have learnt to note what the wing ball and the cue ball did, the balls that
// met a rail and whether there was a shot; how well they see it differs.
func (d handsDraw) drawHabit() rehearsal.Habit {
	return rehearsal.Habit{
		Misses: true, Paths: true, Rails: true, Shots: true,
		Rests: d.rng.Float64() < 0.3, Speeds: d.rng.Float64() < 0.3,
		Unseen: d.drawBetween(0.02, 0.15), Mistaken: d.drawBetween(0, 0.08),
	}
}

func noFault(*rehearsal.Physics, handsDraw) {}

// hitsFarSide and hitsBreakSide meet the head ball off full: the first sends the
// wing ball to the side rail, the second to the foot rail or into another ball.
func hitsFarSide(p *rehearsal.Physics, d handsDraw)   { p.Pull = d.drawInches(0.1, 0.3) }
func hitsBreakSide(p *rehearsal.Physics, d handsDraw) { p.Pull = d.drawInches(-0.6, -0.35) }

// strikesHigh sends the cue ball on after the balls.
func strikesHigh(p *rehearsal.Physics, d handsDraw) { p.Raise = d.drawFraction(0.25, 0.4) }

// forcesStroke puts a shoulder into the stroke that lifts the butt to eight or ten
// degrees: about where the model begins to lose balls.
func forcesStroke(p *rehearsal.Physics, d handsDraw) {
	p.Rush = d.drawSpeed(2, 3)
	lifted := breaksim.Degrees(d.drawBetween(8, 10)) - p.Slope
	p.LiftSpeed = drill.UsualSpeed + p.Rush - table.Mph(lifted/p.SlopePerMph)
}

// racksLoosely leaves up to a millimetre between the balls, so that no change of the setup
// helps much.
func racksLoosely(p *rehearsal.Physics, d handsDraw) { p.Scatter.Gap = d.drawInches(0.02, 0.04) }

// noteCueBallAlone is what the page at the table keeps of a break of a drill that
// asks for the cue ball alone: the cue ball, what left the table, and the leave. Of
// the balls that dropped those are noted that were lower than the one to shoot at,
// since only then does the page ask for the right one.
func noteCueBallAlone(b drill.Break) drill.Break {
	lowest := rack.Ball(1)
	for hasGone(b, lowest) {
		lowest++
	}
	b.Pocketed = slices.DeleteFunc(slices.Clone(b.Pocketed), func(p drill.Pocketed) bool { return p.Ball > lowest })
	b.WingMiss, b.Rails, b.PastString = drill.NotWatched, nil, nil
	return b
}

// hasGone reports whether a ball is no longer on the table.
func hasGone(b drill.Break, ball rack.Ball) bool {
	_, dropped := b.PocketOf(ball)
	return dropped || slices.Contains(b.Off, ball)
}
