package demo

import (
	"math/rand/v2"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rehearsal"
	"breakwright/internal/table"
)

// fault is what is wrong with somebody's hands, drawn from a range. The whole
// class is told the same setup, so that a fault is always in how it is carried
// out. All ranges are assumptions: steadiness as in package breaksim's own
// trials, the rest common practice, no source.
type fault func(p *rehearsal.Physics, d draw)

// draw draws what is hidden about somebody.
type draw struct{ rng *rand.Rand }

func (d draw) between(low, high float64) float64 { return low + (high-low)*d.rng.Float64() }

// inches draws a length, parts a share of the ball's radius, mph a speed.
func (d draw) inches(low, high float64) table.Inches  { return table.Inches(d.between(low, high)) }
func (d draw) parts(low, high float64) drill.Fraction { return drill.Fraction(d.between(low, high)) }
func (d draw) mph(low, high float64) table.Mph        { return table.Mph(d.between(low, high)) }

// hands are those of somebody who nearly does what they are told, with a fault.
// They have no table yet.
func (d draw) hands(f fault) rehearsal.Physics {
	p := rehearsal.Physics{
		Pull: d.inches(-0.03, 0.03), Raise: d.parts(-0.03, 0.03), Rush: d.mph(-0.5, 0.5),
		Steady: breaksim.Scatter{
			Aim: breaksim.Degrees(d.between(0.1, 0.2)), Speed: 0.4, Tip: breaksim.Fraction(d.between(0.03, 0.06)),
			Place: d.inches(0.1, 0.3), Gap: d.inches(0.001, 0.003),
		},
		Own: told, Control: told + 1, Widens: 0.12,
		Slope: breaksim.Degrees(d.between(2, 4)), Lifts: told + 4, Jacks: 3,
	}
	f(&p, d)
	p.Habit = d.habit()
	return p
}

// habit is what somebody takes the trouble to write down. The club's students
// have learnt to note what the wing ball and the cue ball did, the balls that
// met a rail and whether there was a shot; how well they see it differs.
func (d draw) habit() rehearsal.Habit {
	return rehearsal.Habit{
		Misses: true, Paths: true, Rails: true, Shots: true,
		Rests: d.rng.Float64() < 0.3, Speeds: d.rng.Float64() < 0.3,
		Unseen: d.between(0.02, 0.15), Mistaken: d.between(0, 0.08),
	}
}

func noFault(*rehearsal.Physics, draw) {}

// hitsFarSide and hitsBreakSide meet the head ball off full: the first sends the
// wing ball to the side rail, the second to the foot rail or into another ball.
func hitsFarSide(p *rehearsal.Physics, d draw)   { p.Pull = d.inches(0.1, 0.3) }
func hitsBreakSide(p *rehearsal.Physics, d draw) { p.Pull = d.inches(-0.6, -0.35) }

// strikesHigh sends the cue ball on after the balls.
func strikesHigh(p *rehearsal.Physics, d draw) { p.Raise = d.parts(0.25, 0.4) }

// forces puts a shoulder into the stroke that lifts the butt to eight or ten
// degrees: about where the model begins to lose balls.
func forces(p *rehearsal.Physics, d draw) {
	p.Rush = d.mph(2, 3)
	lifted := breaksim.Degrees(d.between(8, 10)) - p.Slope
	p.Lifts = told + p.Rush - table.Mph(lifted/p.Jacks)
}

// racksLoosely leaves gaps between the balls.
func racksLoosely(p *rehearsal.Physics, d draw) { p.Steady.Gap = d.inches(0.012, 0.025) }

// holdsBack breaks far softer than told, on racks with a millimetre of gaps: no
// change of the setup helps much.
func holdsBack(p *rehearsal.Physics, d draw) {
	p.Rush, p.Steady.Gap = d.mph(-7, -5), d.inches(0.03, 0.045)
}
