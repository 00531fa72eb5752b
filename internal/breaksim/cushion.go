package breaksim

import "math"

// The cushion is a rigid nose at a fixed height, as in Mathavan, Jackson and
// Parkin 2010: the ball meets it above its centre (15.66 degrees for a nose at
// 63.5 % of the diameter), so that the cushion presses it onto the bed, and
// friction acts at both places at once while the blow lasts. The blow is
// divided into small equal parts; each rubs at the nose, acts along the slanted
// normal, then rubs on the bed, neither further than to stop the slip. It
// ends when the energy given back is the restitution squared of the energy
// taken in (Stronge's hypothesis).
//
// Two things are ours: the restitution falls with the speed into the cushion
// (their data end at 2.5 m/s), and a ball whose spin climbs the nose, or which
// meets it in the air, is free to rise.

// cushionParts is how many parts the compression is divided into.
const cushionParts = 24

// noseContact describes one meeting of a ball with a nose, facing or jaw.
type noseContact struct {
	// in is the flat unit vector from the nose to the ball's centre.
	in vec
	// share of the cushion's restitution.
	share float64
}

// reboundFromNose changes the ball's velocity and spin by the blow of a nose, and says
// how fast the ball went into it; 0 or less means that it was not meeting it.
func (c *constants) reboundFromNose(b *ballState, at noseContact) float64 {
	return c.reboundInParts(b, at, cushionParts)
}

func (c *constants) reboundInParts(b *ballState, at noseContact, parts int) float64 {
	n := c.noseNormal(b, at)
	meeting := -b.v.dot(n)
	if meeting <= 0 {
		return meeting
	}
	e := c.cushionRestitution(meeting) * at.share
	part := meeting / float64(parts)
	stored, level := 0.0, meeting
	for i := 0; i < 4*parts && level > 1e-9*meeting; i++ {
		stored -= c.pressNose(b, n, min(part, level/speedPerBlow(b, n)))
		level = -b.v.dot(n)
	}
	c.returnEnergy(b, n, part, e*e*stored)
	return meeting
}

// returnEnergy presses on until the energy due is given back: with out the speed
// away from the nose, a blow of x gives out·x + yielding·x²/2.
func (c *constants) returnEnergy(b *ballState, n vec, part, due float64) {
	const enough = 1 << 14 // parts; never reached, but a blow must end
	for i := 0; i < enough && due > 0; i++ {
		out, k := b.v.dot(n), speedPerBlow(b, n)
		x := 2 * due / (out + math.Sqrt(out*out+2*k*due))
		if x <= part {
			c.pressNose(b, n, x)
			return
		}
		due -= c.pressNose(b, n, part)
	}
}

// speedPerBlow is how much speed along n a blow of 1 along n gives: less than 1 when
// the bed takes up the downward part.
func speedPerBlow(b *ballState, n vec) float64 {
	if n.z < 0 && b.p.z <= 0 && b.v.z <= 0 {
		return 1 - n.z*n.z
	}
	return 1
}

// pressNose applies one part of the blow, in units of velocity, and says how
// much energy (for a mass of 1) its normal part gave the ball. The nose rubs
// first, so that the bed has to bear what is downward in both together.
func (c *constants) pressNose(b *ballState, n vec, part float64) float64 {
	bed := 0.0
	slip := c.slipAtNose(b, n)
	if slipping := slip.norm(); slipping > slipSpeed {
		k := min(c.cushionMu*part, slipping*2/7) / slipping
		b.w = b.w.add(n.cross(slip).scaledBy(2.5 / c.radius * k))
		bed += c.pushBall(b, slip.scaledBy(-k))
	}
	before := b.v.dot(b.v)
	bed += c.pushBall(b, n.scaledBy(part))
	given := (b.v.dot(b.v) - before) / 2
	if bed > 0 {
		c.rubOnCloth(b, c.slide*bed)
	}
	return given
}

// pushBall changes the velocity; what would drive a ball on the bed into it, the
// bed takes up without bouncing, and push says how much that was.
func (c *constants) pushBall(b *ballState, dv vec) (bed float64) {
	b.v = b.v.add(dv)
	if b.p.z <= 0 && b.v.z < 0 {
		bed, b.v.z = -b.v.z, 0
	}
	return bed
}

// noseNormal returns the unit vector from the nose to the ball's centre in space.
func (c *constants) noseNormal(b *ballState, at noseContact) vec {
	rise := (b.p.z + c.radius - c.noseHeight) / c.radius
	rise = min(max(rise, -1), 1)
	n := at.in.scaledBy(math.Sqrt(1 - rise*rise))
	n.z = rise
	return n
}

// slipAtNose is the velocity of the ball's surface over the nose.
func (c *constants) slipAtNose(b *ballState, n vec) vec {
	s := b.v.plusScaled(-b.v.dot(n), n)
	return s.sub(b.w.cross(n).scaledBy(c.radius))
}

// cushionRestitution falls with the speed into the cushion and never below a
// half of what it is at no speed.
func (c *constants) cushionRestitution(meeting float64) float64 {
	return max(c.cushionE-c.cushionSlow*meeting, c.cushionE/2)
}
