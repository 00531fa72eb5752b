package breaksim

import "math"

// Speeds below these count as none: a ball creeping at a tenth of a millimetre
// a second would come to rest within a hair's breadth.
const (
	restSpeed = 1e-4 // m/s
	slipSpeed = 1e-6 // m/s
)

// startPhase starts a new phase at time now from the ball's place, velocity and spin,
// which decide which phase it is. Laws of sliding and rolling: Coriolis 1835,
// Marlow 1995 (from memory), rederived here.
func (c *constants) startPhase(b *ballState, now float64) {
	b.from, b.a, b.turn = now, vec{}, vec{}
	if b.p.z > 1e-9 || b.v.z > c.liftOff {
		c.startFlight(b)
		return
	}
	b.p.z, b.v.z = 0, 0
	slip := c.slipOnCloth(b)
	slipping := slip.flatNorm()
	switch speed := b.v.flatNorm(); {
	case slipping > slipSpeed:
		c.startSliding(b, slip, slipping)
	case speed > restSpeed:
		c.startRolling(b, speed)
	default:
		b.phase, b.v, b.until = still, vec{}, math.Inf(1)
		b.w.x, b.w.y = 0, 0
	}
}

func (c *constants) startFlight(b *ballState) {
	b.phase, b.a.z = airborne, -c.gravity
	b.until = b.from + (b.v.z+math.Sqrt(b.v.z*b.v.z+2*c.gravity*b.p.z))/c.gravity
}

// slideOn: friction acts against the slip, so slip keeps its direction and dies
// at 7/2 of the rate at which the centre changes speed.
func (c *constants) startSliding(b *ballState, slip vec, slipping float64) {
	b.phase = sliding
	ux, uy := slip.x/slipping, slip.y/slipping
	b.a = vec{x: -c.slideDecel * ux, y: -c.slideDecel * uy}
	spin := 2.5 * c.slideDecel / c.radius
	b.turn = vec{x: -spin * uy, y: spin * ux}
	b.until = b.from + slipping/(3.5*c.slideDecel)
}

func (c *constants) startRolling(b *ballState, speed float64) {
	b.phase = rolling
	b.a = vec{x: -c.rollDecel * b.v.x / speed, y: -c.rollDecel * b.v.y / speed}
	b.until = b.from + speed/c.rollDecel
	b.w.x, b.w.y = -b.v.y/c.radius, b.v.x/c.radius
	b.turn = vec{x: -b.a.y / c.radius, y: b.a.x / c.radius}
}

// positionAt and speed give the ball's centre (above its base) and velocity at a
// time within its phase.
func (b *ballState) positionAt(at float64) vec {
	t := at - b.from
	return vec{
		b.p.x + t*(b.v.x+t*b.a.x/2),
		b.p.y + t*(b.v.y+t*b.a.y/2),
		b.p.z + t*(b.v.z+t*b.a.z/2),
	}
}

func (b *ballState) velocityAt(at float64) vec { return b.v.plusScaled(at-b.from, b.a) }

// advanceBall brings the ball to a time within its phase without ending it.
func (c *constants) advanceBall(b *ballState, at float64) {
	t := at - b.from
	if t == 0 {
		return
	}
	b.p, b.v = b.positionAt(at), b.velocityAt(at)
	b.w.x += t * b.turn.x
	b.w.y += t * b.turn.y
	if b.phase != airborne {
		b.w.z = math.Copysign(max(math.Abs(b.w.z)-c.spinDown*t, 0), b.w.z)
	}
	b.from = at
}

// endPhase is what happens by itself at b.until: sliding becomes rolling,
// rolling ends, flying ends on the cloth.
func (c *constants) endPhase(b *ballState) {
	at := b.until
	was := b.phase
	c.advanceBall(b, at)
	switch was {
	case sliding: // the slip is gone; leave no crumb of it
		b.w.x, b.w.y = -b.v.y/c.radius, b.v.x/c.radius
	case rolling:
		b.v, b.w.x, b.w.y = vec{}, 0, 0
	case airborne:
		b.p.z = 0
		c.landOnBed(b)
	}
	c.startPhase(b, at)
}

// landOnBed lets a ball that comes down bounce on the bed, with friction at its base
// as far as there is slip to stop. Whether it lifts off again is for set to say.
func (c *constants) landOnBed(b *ballState) {
	if b.v.z >= 0 {
		return
	}
	down := -b.v.z
	b.v.z = c.bedRestitution * down
	c.rubOnCloth(b, c.slide*(down+b.v.z))
}

// rubOnCloth gives the base a blow against its slip, in units of velocity: no more
// than stops it (two sevenths of the slip, for a solid ball).
func (c *constants) rubOnCloth(b *ballState, most float64) {
	slip := c.slipOnCloth(b)
	slipping := slip.flatNorm()
	if slipping < slipSpeed {
		return
	}
	k := min(most, slipping*2/7) / slipping
	b.v.x -= k * slip.x
	b.v.y -= k * slip.y
	b.w.x -= 2.5 / c.radius * k * slip.y
	b.w.y += 2.5 / c.radius * k * slip.x
}
