package rehearsal

import (
	"math/rand/v2"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// ballAccount keeps account of where each ball of the rack went, so that none goes
// two ways.
type ballAccount struct {
	order []rack.Ball
	gone  [16]bool
}

func (r *ballAccount) pocketBall(b *drill.Break, ball rack.Ball, p table.Pocket) {
	r.gone[ball] = true
	b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: ball, Pocket: p})
}

func (r *ballAccount) keepBall(ball rack.Ball) { r.gone[ball] = true }

// dropOffTable takes one ball that has gone nowhere yet off the table.
func (r *ballAccount) dropOffTable(b *drill.Break, rng *rand.Rand) {
	ball := r.order[rng.IntN(len(r.order))]
	if !r.gone[ball] {
		r.gone[ball] = true
		b.Off = append(b.Off, ball)
	}
}

// playOtherBalls says what became of the rest: they bear on whether the break was
// legal and whether there is a shot, and do not depend on the fault but for the
// speed.
func (c Curve) playOtherBalls(s drill.Setup, st deliveredStroke, b *drill.Break, r *ballAccount, rng *rand.Rand) {
	lively := normalCDF(st.speed, c.NeededSpeed, 1.2)
	if p := rng.Float64(); p < 0.2*lively && !r.gone[s.HeadBall()] {
		r.pocketBall(b, s.HeadBall(), table.SidePocket(s.Side.Mirror()))
	}
	stray, where := r.order[rng.IntN(len(r.order))], rng.IntN(6)
	if drawChance(0.22*lively, rng) && !r.gone[stray] {
		r.pocketBall(b, stray, table.Pockets()[where])
	}
	rails, past := 0, 0
	for range len(r.order) - 1 {
		if drawChance(0.1+0.75*lively, rng) {
			rails++
		}
		if drawChance(0.35*lively, rng) {
			past++
		}
	}
	shot := rng.Float64()
	x, y := rng.Float64(), rng.Float64()
	if c.Habit.Rails {
		b.Rails, b.PastString = drill.ObservedCount(rails), drill.ObservedCount(past)
	}
	if c.Habit.Shots && b.Cue.How == drill.Stopped {
		b.Shot = drill.ShotNone
		switch {
		case shot < 0.55:
			b.Shot = drill.ShotOpen
		case shot < 0.8:
			b.Shot = drill.ShotHard
		}
	}
	if c.Habit.Rests && !r.gone[s.HeadBall()] {
		half := float64(c.Kind.Width() / 2)
		at := table.Place{X: table.Inches(half * (1.4*x - 0.5)), Y: table.Inches(half * (0.6 + 1.6*y))}
		at = c.Kind.SettleBall(at)
		b.Rest = append(b.Rest, drill.RestingBall{Ball: s.HeadBall(), Place: table.Place{X: roundToTenth(at.X), Y: roundToTenth(at.Y)}})
	}
}
