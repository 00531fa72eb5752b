package breaksim

import (
	"math"
	"math/rand/v2"

	"breakwright/internal/table"
)

// scattered gives the Input as this once it was carried out. Every error is
// drawn, those of no size too, so that two setups with the same random source
// meet the same luck.
func (in Input) scattered(k table.Kind, rng *rand.Rand) (out Input, turn float64) {
	s := in.Scatter
	turn = float64(s.Aim) * math.Pi / 180 * rng.NormFloat64()
	in.Speed = min(max(in.Speed+s.Speed*table.Mph(rng.NormFloat64()), in.Speed/4), Fastest)
	in.Tip += s.Tip * Fraction(rng.NormFloat64())
	in.Spin += s.Tip * Fraction(rng.NormFloat64())
	if off := Fraction(math.Hypot(float64(in.Tip), float64(in.Spin))); off > MiscueTip {
		in.Tip, in.Spin = in.Tip*MiscueTip/off, in.Spin*MiscueTip/off
	}
	in.Cue.X += s.Place * table.Inches(rng.NormFloat64())
	in.Cue.Y += s.Place * table.Inches(rng.NormFloat64())
	in.Cue = k.Settle(in.Cue)
	return in, turn
}

// strike gives the cue ball its start: sent at the head ball, turned by an error
// of aim (radians, to the right).
func (s *run) strike(in Input, head vec, turn float64) {
	b := &s.balls[cue]
	b.p = metres(in.Cue)
	d := head.sub(b.p)
	apart := d.flat()
	d = d.times(1 / apart)
	turn += math.Asin(in.Contact.Metres() / apart)
	sin, cos := math.Sincos(turn)
	d = vec{x: d.x*cos + d.y*sin, y: d.y*cos - d.x*sin}
	s.c.stroke(b, d, float64(in.Tip), float64(in.Spin), in.Speed.MetresPerSecond(), float64(in.Elevation)*math.Pi/180)
}

// stroke sends a ball along d (flat, unit) at a speed along the cloth. The spin
// is 5/2 of the tip's distance from the centre by the radius (a solid ball:
// Coriolis 1835, Marlow 1995, from memory). A sloping cue also drives the ball
// onto the bed, from which it bounces. Squirt is left out: the aim is where the
// cue ball goes.
func (c *constants) stroke(b *ball, d vec, tip, side, speed, slope float64) {
	sin, cos := math.Sincos(slope)
	along := d.times(cos).plus(-sin, up)
	above := d.times(sin).plus(cos, up)
	right := vec{x: d.y, y: -d.x}
	full := speed / cos
	offset := above.times(tip).plus(side, right)
	b.w = offset.cross(along).times(2.5 * full / c.radius)
	b.v = d.times(speed)
	b.v.z = c.bedRestitution * full * sin
}

// rackUp puts the object balls where the rack has them, in slot order, with the
// small gaps of a rack that is not tight when gap and a random source are given.
func (s *run) rackUp(in Input, rng *rand.Rand) {
	slots := in.Game.Slots()
	s.n = 1 + len(slots)
	for i, slot := range slots {
		at, _ := in.Game.Place(slot, in.Spot, s.t.kind)
		s.balls[1+i].p = metres(at)
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
		s.loosen(in.Game.HeadBall(in.Spot, s.t.kind))
	}
}

// loosen pushes overlapping racked balls apart, pair by pair, until none
// overlaps: some touch then and some have gaps, as in a rack racked by hand.
func (s *run) loosen(head table.Place) {
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
					a.p, b.p = a.p.plus(-over/(2*apart), d), b.p.plus(over/(2*apart), d)
				}
			}
		}
		if worst < 1e-10 {
			break
		}
	}
	s.widen(metres(head))
}

// widen spreads the rack from its head by what is left of any overlap.
func (s *run) widen(head vec) {
	least := s.c.diameter
	for i := 1; i < s.n; i++ {
		for j := i + 1; j < s.n; j++ {
			least = min(least, s.balls[j].p.sub(s.balls[i].p).norm())
		}
	}
	k := s.c.diameter / least
	for i := 1; i < s.n; i++ {
		s.balls[i].p = head.plus(k, s.balls[i].p.sub(head))
	}
}
