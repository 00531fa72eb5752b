package breaksim

import "math"

// collideBalls is the instant contact of two balls that no third one shares: the
// normal part parts them at the restitution's share of their speed of meeting,
// friction acts against their slip, never further than to stop it (a seventh of
// the slip for each of two equal solid balls). It says how fast they met; 0 or
// less means that they were not meeting and nothing was changed.
//
// The throw law is Alciatore's TP A.14 (from memory), fitted to Marlow 1995.
func (c *constants) collideBalls(a, b *ballState) float64 {
	n := b.p.sub(a.p)
	n = n.scaledBy(1 / n.norm())
	meeting := a.v.sub(b.v).dot(n)
	if meeting <= 0 {
		return meeting
	}
	blow := (1 + c.restitution) / 2 * meeting // in units of velocity
	a.v = a.v.plusScaled(-blow, n)
	b.v = b.v.plusScaled(blow, n)
	slip := c.slipBetween(a, b, n)
	slipping := slip.norm()
	if slipping > slipSpeed {
		c.applyFriction(a, b, n, slip, min(c.ballFriction(slipping)*blow, slipping/7)/slipping)
	}
	c.settleOnBed(a)
	c.settleOnBed(b)
	return meeting
}

// slipBetween is how fast a's surface moves over b's where they touch, n
// pointing from a to b.
func (c *constants) slipBetween(a, b *ballState, n vec) vec {
	d := a.v.sub(b.v)
	d = d.plusScaled(-d.dot(n), n)
	return d.add(a.w.add(b.w).cross(n).scaledBy(c.radius))
}

// applyFriction gives both balls the friction blow -k·slip and +k·slip, and both the
// same turn.
func (c *constants) applyFriction(a, b *ballState, n, slip vec, k float64) {
	a.v = a.v.plusScaled(-k, slip)
	b.v = b.v.plusScaled(k, slip)
	turn := n.cross(slip).scaledBy(-2.5 / c.radius * k)
	a.w = a.w.add(turn)
	b.w = b.w.add(turn)
}

// settleOnBed: a ball on the cloth that a contact drives down bounces at once.
func (c *constants) settleOnBed(b *ballState) {
	if b.p.z <= 0 && b.v.z < 0 {
		c.landOnBed(b)
	}
}

// separateBalls moves two balls that sank into one another within the allowed overlap
// apart again until they touch, each by half.
func (c *constants) separateBalls(a, b *ballState) {
	d := b.p.sub(a.p)
	apart := d.norm()
	if over := c.diameter - apart; over > 0 && over <= 4*c.overlap {
		half := d.scaledBy(over / (2 * apart))
		half.z = 0
		a.p, b.p = a.p.sub(half), b.p.add(half)
	}
}

// gapBetween is the space between two balls' surfaces.
func (c *constants) gapBetween(a, b vec) float64 {
	dx, dy, dz := a.x-b.x, a.y-b.y, a.z-b.z
	return math.Sqrt(dx*dx+dy*dy+dz*dz) - c.diameter
}
