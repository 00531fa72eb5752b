package rehearsal

import (
	"math/rand/v2"

	"breakwright/internal/drill"
)

// playWingBall reports whether the wing ball dropped, and what was noted when not.
// Too far in, it meets the side rail first; too far out, the foot rail or
// another ball. A near miss may rattle in the jaws, more often on the side-rail
// side.
func (c Curve) playWingBall(s drill.Setup, st deliveredStroke, b *drill.Break, r *ballAccount, rng *rand.Rand) {
	e := c.drawWingError(s, st, rng)
	kissed := drawChance(c.Kiss, rng)
	short := drawChance(0.6*normalCDF(float64(c.NeededSpeed-st.speed), 0, 0.8), rng)
	near := 1.25 * c.Tolerance
	rattle := rng.Float64()
	switch {
	case short:
		c.Habit.noteMiss(b, drill.MissUnknown, rng)
	case kissed:
		c.Habit.noteMiss(b, drill.MissKissed, rng)
	case e >= -c.Tolerance && e <= c.Tolerance:
		r.pocketBall(b, s.WingBall(), s.WingPocket())
		return
	case e < 0 && e > -near && rattle < 0.5, e > 0 && e < near && rattle < 0.2:
		c.Habit.noteMiss(b, drill.MissJaws, rng)
	case e < 0:
		c.Habit.noteMiss(b, drill.MissSideRail, rng)
	case rattle < 0.6:
		c.Habit.noteMiss(b, drill.MissFootRail, rng)
	default:
		c.Habit.noteMiss(b, drill.MissKissed, rng)
	}
	r.keepBall(s.WingBall())
}

// Habit is what a student takes the trouble to note.
type Habit struct {
	Misses, Paths, Rails, Shots, Rests, Speeds bool
	// Unseen is the chance that a miss or a path is noted as unknown, Mistaken
	// that a miss is noted on the wrong side.
	Unseen, Mistaken float64
}

func (h Habit) noteMiss(b *drill.Break, m drill.WingMiss, rng *rand.Rand) {
	unseen, mistaken := drawChance(h.Unseen, rng), drawChance(h.Mistaken, rng)
	switch {
	case !h.Misses:
		return
	case unseen:
		m = drill.MissUnknown
	case mistaken && m == drill.MissSideRail:
		m = drill.MissFootRail
	case mistaken && m == drill.MissFootRail:
		m = drill.MissSideRail
	}
	b.WingMiss = m
}

func (h Habit) notePath(b *drill.Break, p drill.CuePath, rng *rand.Rand) {
	unseen := drawChance(h.Unseen, rng)
	switch {
	case !h.Paths:
		return
	case unseen:
		p = drill.PathUnknown
	}
	b.CuePath = p
}
