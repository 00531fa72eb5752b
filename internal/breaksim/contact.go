package breaksim

import "math"

// stiffPhase is the stiff phase: the balls that are pressed together, or about to
// be, and what their springs need. Only they are moved in small steps; all
// others keep their closed-form motion and its events.
type stiffPhase struct {
	count int
	in    [maxBalls]bool
	step  float64 // length of a step
	ahead float64 // how far ahead, in seconds, a coming touch is looked for
	until float64 // when it is broken off at the latest
	taken int     // steps since the balls were last sorted

	entered [maxBalls]float64 // when each ball came in
	start   [maxBalls]vec     // and where
	linear  [maxBalls]vec     // accelerations
	angular [maxBalls]vec
	half    [maxBalls]vec // velocities and spins at half a step
	halfW   [maxBalls]vec
	// touch is the distance at which two balls' spring is slack: a diameter, or
	// less if they were found deeper, so that no spring starts loaded.
	touch [maxBalls][maxBalls]float64
	// grip is the friction of each pair's contact, and slid the fastest slip
	// that set it; both are 0 while they do not touch.
	grip, slid [maxBalls][maxBalls]float64
	links      []pressedPair
}

// pressedPair is a pair of pressed balls that can touch before the next sorting.
type pressedPair struct{ i, j int }

// stepForward moves the pressed balls by one step of the velocity Verlet scheme,
// with velocities predicted for the forces that depend on them. It is of second
// order; the tests measure it.
func (s *simulation) stepForward(dt float64) {
	p := &s.press
	for i := range s.n {
		if !p.in[i] {
			continue
		}
		b := &s.balls[i]
		v, w := b.v.plusScaled(dt/2, p.linear[i]), b.w.plusScaled(dt/2, p.angular[i])
		p.half[i], p.halfW[i] = v, w
		b.p = b.p.plusScaled(dt, v)
		b.v, b.w = v.plusScaled(dt/2, p.linear[i]), w.plusScaled(dt/2, p.angular[i])
	}
	s.computeForces()
	for i := range s.n {
		if p.in[i] {
			b := &s.balls[i]
			b.v = p.half[i].plusScaled(dt/2, p.linear[i])
			b.w = p.halfW[i].plusScaled(dt/2, p.angular[i])
		}
	}
}

// computeForces computes the accelerations of the pressed balls where they are.
func (s *simulation) computeForces() {
	p := &s.press
	for i := range s.n {
		if p.in[i] {
			p.linear[i], p.angular[i] = vec{}, vec{}
			if s.balls[i].p.z < 0 {
				s.c.pressBed(&s.balls[i], &p.linear[i], &p.angular[i])
			}
		}
	}
	for _, l := range p.links {
		a, b := &s.balls[l.i], &s.balls[l.j]
		d := b.p.sub(a.p)
		apart2, touch := d.dot(d), p.touch[l.i][l.j]
		if apart2 >= touch*touch {
			p.grip[l.i][l.j], p.slid[l.i][l.j] = 0, 0
			continue
		}
		apart := math.Sqrt(apart2)
		n := d.scaledBy(1 / apart)
		slip := s.c.slipBetween(a, b, n)
		mu := p.contactFriction(s.c, l, slip.norm())
		force, turn := s.c.pressPair(a, b, n, slip, touch-apart, mu)
		p.linear[l.i] = p.linear[l.i].sub(force)
		p.linear[l.j] = p.linear[l.j].add(force)
		p.angular[l.i] = p.angular[l.i].add(turn)
		p.angular[l.j] = p.angular[l.j].add(turn)
	}
}

// contactFriction returns the friction of a contact: the throw law's for the fastest slip it
// has had. Two balls alone slip fastest when they first touch, which is the slip
// the law was fitted to; in a rack, balls at rest begin to slip as the blow
// reaches them.
func (p *stiffPhase) contactFriction(c *constants, l pressedPair, slipping float64) float64 {
	if p.grip[l.i][l.j] == 0 || slipping > p.slid[l.i][l.j] {
		p.grip[l.i][l.j], p.slid[l.i][l.j] = c.ballFriction(slipping), slipping
	}
	return p.grip[l.i][l.j]
}

// pressPair returns the acceleration of b (a's is its opposite) and the turn of
// both, for a depth of contact and the normal n from a to b: a Hertz spring with
// a damper that keeps the restitution the same at every speed, never pulling,
// and friction against the slip that eases off below the creep speed.
func (c *constants) pressPair(a, b *ballState, n, slip vec, depth, mu float64) (force, turn vec) {
	root := math.Sqrt(depth)
	approach := a.v.sub(b.v).dot(n)
	normal := c.stiffness*depth*root + c.damping*math.Sqrt(root)*approach
	if normal <= 0 {
		return vec{}, vec{}
	}
	normal /= c.mass
	k := mu * normal / math.Sqrt(slip.dot(slip)+c.creep*c.creep)
	force = n.scaledBy(normal).plusScaled(k, slip)
	return force, n.cross(slip).scaledBy(-2.5 / c.radius * k)
}

// pressBed adds the bed's push on a ball driven into it, and its friction.
func (c *constants) pressBed(b *ballState, linear, angular *vec) {
	root := math.Sqrt(-b.p.z)
	normal := c.bedStiffness*-b.p.z*root - c.bedDamping*math.Sqrt(root)*b.v.z
	if normal <= 0 {
		return
	}
	normal /= c.mass
	linear.z += normal
	slip := c.slipOnCloth(b)
	k := c.slide * normal / math.Sqrt(slip.dot(slip)+c.creep*c.creep)
	linear.x -= k * slip.x
	linear.y -= k * slip.y
	angular.x -= 2.5 / c.radius * k * slip.y
	angular.y += 2.5 / c.radius * k * slip.x
}
