package breaksim

import (
	"math"
	"math/rand/v2"

	"breakwright/internal/table"
)

// withScatter returns the Input as this once it was carried out. Every error is
// drawn, those of no size too, so that two setups with the same random source
// meet the same luck.
func (in BreakInput) withScatter(k table.Kind, rng *rand.Rand) (out BreakInput, turn float64) {
	s := in.Scatter
	turn = float64(s.Aim) * math.Pi / 180 * rng.NormFloat64()
	in.Speed = min(max(in.Speed+s.Speed*table.Mph(rng.NormFloat64()), in.Speed/4), Fastest)
	in.Tip += s.Tip * RadiusFraction(rng.NormFloat64())
	in.Spin += s.Tip * RadiusFraction(rng.NormFloat64())
	if off := RadiusFraction(math.Hypot(float64(in.Tip), float64(in.Spin))); off > MiscueTip {
		in.Tip, in.Spin = in.Tip*MiscueTip/off, in.Spin*MiscueTip/off
	}
	in.Cue.X += s.Place * table.Inches(rng.NormFloat64())
	in.Cue.Y += s.Place * table.Inches(rng.NormFloat64())
	in.Cue = k.SettleBall(in.Cue)
	return in, turn
}

// strikeCueBall gives the cue ball its start: sent at the head ball, turned by an error
// of aim (radians, to the right).
func (s *simulation) strikeCueBall(in BreakInput, head vec, turn float64) {
	b := &s.balls[cue]
	b.p = vecFromPlace(in.Cue)
	d := head.sub(b.p)
	apart := d.flatNorm()
	d = d.scaledBy(1 / apart)
	turn += math.Asin(in.Contact.Metres() / apart)
	sin, cos := math.Sincos(turn)
	d = vec{x: d.x*cos + d.y*sin, y: d.y*cos - d.x*sin}
	s.c.applyStroke(b, d, float64(in.Tip), float64(in.Spin), in.Speed.MetresPerSecond(), float64(in.Elevation)*math.Pi/180)
}

// applyStroke sends a ball along d (flat, unit) at a speed along the cloth. The spin
// is 5/2 of the tip's distance from the centre by the radius (a solid ball:
// Coriolis 1835, Marlow 1995, from memory). A sloping cue also drives the ball
// onto the bed, from which it bounces. Squirt is left out: the aim is where the
// cue ball goes.
func (c *constants) applyStroke(b *ballState, d vec, tip, side, speed, slope float64) {
	sin, cos := math.Sincos(slope)
	along := d.scaledBy(cos).plusScaled(-sin, up)
	above := d.scaledBy(sin).plusScaled(cos, up)
	right := vec{x: d.y, y: -d.x}
	full := speed / cos
	offset := above.scaledBy(tip).plusScaled(side, right)
	b.w = offset.cross(along).scaledBy(2.5 * full / c.radius)
	b.v = d.scaledBy(speed)
	b.v.z = c.bedRestitution * full * sin
}

// rackBalls puts the object balls where the rack has them, in slot order, with the
// small gaps of a rack that is not tight when gap and a random source are given.
func (s *simulation) rackBalls(in BreakInput, rng *rand.Rand) {
	slots := in.Game.Slots()
	s.n = 1 + len(slots)
	for i, slot := range slots {
		at, _ := in.Game.SlotPlace(slot, in.Spot, s.t.kind)
		s.balls[1+i].p = vecFromPlace(at)
	}
	if rng == nil {
		return
	}
	gap := in.Scatter.Gap.Metres()
	for i := 1; i < s.n; i++ {
		s.balls[i].p.x += gap * rng.NormFloat64()
		s.balls[i].p.y += gap * rng.NormFloat64()
	}
	if gap > 0 {
		s.loosenRack(in.Game.HeadBallPlace(in.Spot, s.t.kind))
	}
}

// loosenRack pushes overlapping racked balls apart, pair by pair, until none
// overlaps: some touch then and some have gaps, as in a rack racked by hand.
func (s *simulation) loosenRack(head table.Place) {
	const rounds = 2000
	for range rounds {
		worst := 0.0
		for i := 1; i < s.n; i++ {
			for j := i + 1; j < s.n; j++ {
				a, b := &s.balls[i], &s.balls[j]
				d := b.p.sub(a.p)
				apart := d.norm()
				if over := s.c.diameter - apart; over > 0 {
					worst = max(worst, over)
					a.p, b.p = a.p.plusScaled(-over/(2*apart), d), b.p.plusScaled(over/(2*apart), d)
				}
			}
		}
		if worst < 1e-10 {
			break
		}
	}
	s.widenRack(vecFromPlace(head))
}

// widenRack spreads the rack from its head by what is left of any overlap.
func (s *simulation) widenRack(head vec) {
	least := s.c.diameter
	for i := 1; i < s.n; i++ {
		for j := i + 1; j < s.n; j++ {
			least = min(least, s.balls[j].p.sub(s.balls[i].p).norm())
		}
	}
	k := s.c.diameter / least
	for i := 1; i < s.n; i++ {
		s.balls[i].p = head.plusScaled(k, s.balls[i].p.sub(head))
	}
}
