package rehearsal

import (
	"math/rand/v2"

	"breakwright/internal/drill"
)

// wingBall says whether the wing ball dropped, and what was noted when not.
// Too far in, it meets the side rail first; too far out, the foot rail or
// another ball. A near miss may rattle in the jaws, more often on the side-rail
// side.
func (c Curve) wingBall(s drill.Setup, st stroke, b *drill.Break, r *racked, rng *rand.Rand) {
	e := c.latent(s, st, rng)
	kissed := chance(c.Kiss, rng)
	short := chance(0.6*rise(float64(c.Needs-st.speed), 0, 0.8), rng)
	near := 1.25 * c.Tolerance
	rattle := rng.Float64()
	switch {
	case short:
		c.Habit.miss(b, drill.MissUnknown, rng)
	case kissed:
		c.Habit.miss(b, drill.MissKissed, rng)
	case e >= -c.Tolerance && e <= c.Tolerance:
		r.pocket(b, s.WingBall(), s.WingPocket())
		return
	case e < 0 && e > -near && rattle < 0.5, e > 0 && e < near && rattle < 0.2:
		c.Habit.miss(b, drill.MissJaws, rng)
	case e < 0:
		c.Habit.miss(b, drill.MissSideRail, rng)
	case rattle < 0.6:
		c.Habit.miss(b, drill.MissFootRail, rng)
	default:
		c.Habit.miss(b, drill.MissKissed, rng)
	}
	r.stays(s.WingBall())
}

// Habit is what a student takes the trouble to note.
type Habit struct {
	Misses, Paths, Rails, Shots, Rests, Speeds bool
	// Unseen is the chance that a miss or a path is noted as unknown, Mistaken
	// that a miss is noted on the wrong side.
	Unseen, Mistaken float64
}

func (h Habit) miss(b *drill.Break, m drill.WingMiss, rng *rand.Rand) {
	unseen, mistaken := chance(h.Unseen, rng), chance(h.Mistaken, rng)
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

func (h Habit) path(b *drill.Break, p drill.CuePath, rng *rand.Rand) {
	unseen := chance(h.Unseen, rng)
	switch {
	case !h.Paths:
		return
	case unseen:
		p = drill.PathUnknown
	}
	b.CuePath = p
}
