package breaksim

import (
	"math"
	"testing"

	"breakwright/internal/rack"
)

// plain is the reference: the same physics done the plain way, every ball and
// every pair moved in equal small steps from the stroke on, with no events, no
// closed forms, no roots and no clusters. It shares the laws' constants and the
// cushion's blow, and nothing of how the package gets from one moment to the
// next.
type plain struct {
	t     *Table
	c     *constants
	now   float64
	step  float64
	balls []ballState
	grip  [maxBalls][maxBalls]float64
	slid  [maxBalls][maxBalls]float64
	rails int
}

func newPlain(t *Table, start *simulation, stepsPerContact float64) *plain {
	p := &plain{t: t, c: &t.c}
	p.balls = append(p.balls, start.balls[:start.n]...)
	p.step = t.c.contactTime(p.balls[0].v.norm()) / stepsPerContact
	return p
}

func (p *plain) runTo(seconds float64) {
	for p.now < seconds {
		p.forward()
	}
}

// forward: kick, then drift (the semi-implicit scheme).
func (p *plain) forward() {
	dt := p.step
	for i := range p.balls {
		for j := i + 1; j < len(p.balls); j++ {
			p.pressTogether(i, j, dt)
		}
	}
	for i := range p.balls {
		b := &p.balls[i]
		if b.phase == gone {
			continue
		}
		p.cloth(b, dt)
		b.p = b.p.plusScaled(dt, b.v)
		p.around(b)
	}
	p.now += dt
}

func (p *plain) pressTogether(i, j int, dt float64) {
	a, b := &p.balls[i], &p.balls[j]
	dx, dy, dz := b.p.x-a.p.x, b.p.y-a.p.y, b.p.z-a.p.z
	d2 := dx*dx + dy*dy + dz*dz
	if d2 >= p.c.diameter*p.c.diameter || a.phase == gone || b.phase == gone {
		p.grip[i][j], p.slid[i][j] = 0, 0
		return
	}
	d := math.Sqrt(d2)
	n := vec{dx / d, dy / d, dz / d}
	depth := p.c.diameter - d
	approach := a.v.sub(b.v).dot(n)
	f := p.c.stiffness*math.Pow(depth, 1.5) + p.c.damping*math.Pow(depth, 0.25)*approach
	if f <= 0 {
		return
	}
	rel := a.v.sub(b.v)
	slip := rel.sub(n.scaledBy(rel.dot(n))).add(a.w.add(b.w).cross(n).scaledBy(p.c.radius))
	if s := slip.norm(); p.grip[i][j] == 0 || s > p.slid[i][j] {
		p.grip[i][j], p.slid[i][j] = p.c.ballFriction(s), s
	}
	rub := slip.scaledBy(p.grip[i][j] * f / math.Hypot(slip.norm(), p.c.creep))
	blow := n.scaledBy(f).add(rub).scaledBy(dt / p.c.mass)
	a.v, b.v = a.v.sub(blow), b.v.add(blow)
	turn := n.scaledBy(p.c.radius).cross(rub).scaledBy(-dt / p.c.inertia)
	a.w, b.w = a.w.add(turn), b.w.add(turn)
}

// cloth: gravity, the bed's spring, sliding and rolling friction.
func (p *plain) cloth(b *ballState, dt float64) {
	if b.p.z > 1e-5 {
		b.v.z -= p.c.gravity * dt
		return
	}
	push := p.c.gravity
	if b.p.z < 0 {
		depth := -b.p.z
		f := p.c.bedStiffness*math.Pow(depth, 1.5) - p.c.bedDamping*math.Pow(depth, 0.25)*b.v.z
		f = max(f, 0) / p.c.mass
		b.v.z += f * dt
		push = max(push, f)
	}
	if math.Abs(b.v.z) < p.c.liftOff && push == p.c.gravity {
		b.p.z, b.v.z = 0, 0
	}
	slip := vec{x: b.v.x - p.c.radius*b.w.y, y: b.v.y + p.c.radius*b.w.x}
	if s := slip.norm(); s > 0 {
		k := min(p.c.slide*push*dt/s, 2.0/7)
		b.v = b.v.sub(slip.scaledBy(k))
		b.w.x -= 2.5 / p.c.radius * k * slip.y
		b.w.y += 2.5 / p.c.radius * k * slip.x
	}
	if slip.norm() < 1e-3 {
		slow := max(1-p.c.rollDecel*dt/max(b.v.flatNorm(), 1e-9), 0)
		b.v.x, b.v.y, b.w.x, b.w.y = b.v.x*slow, b.v.y*slow, b.w.x*slow, b.w.y*slow
	}
	b.w.z -= math.Copysign(min(p.c.spinDown*dt, math.Abs(b.w.z)), b.w.z)
}

// around: cushions by their blow, drop lines, and the way over a rail.
func (p *plain) around(b *ballState) {
	m, in, found := p.t.findSunkRubber(b)
	if found && b.v.dot(in) < 0 {
		if b.p.z < 1e-5 {
			b.p.z = 0
		}
		share := p.c.facingShare
		if m.kind == atEdge {
			share = m.edge.share
		}
		p.c.reboundFromNose(b, noseContact{in: in, share: share})
		p.rails++
	}
	for i := range p.t.bounds.pockets {
		k := &p.t.bounds.pockets[i]
		if b.p.sub(k.drop).dot(k.out) > 0 {
			*b = ballState{phase: gone}
		}
	}
	if p.t.bounds.isOutside(b.p) {
		*b = ballState{phase: gone}
	}
}

// plainApart is the root mean square difference of velocities along the cloth.
func plainApart(p *plain, s *simulation) float64 {
	sum := 0.0
	for i := range p.balls {
		d := p.balls[i].v.sub(s.balls[i].v)
		d.z = 0
		sum += d.dot(d)
	}
	return math.Sqrt(sum / float64(len(p.balls)))
}

// A cut shot through two balls and three cushions, long before chaos: after
// 1.5 s both ways have every ball within a third of an inch.
func TestShot_AgreesWithThePlainWayOverCushions(t *testing.T) {
	tb := nineFoot(t, nil)
	start := func() *simulation {
		s := &simulation{t: tb, c: &tb.c, n: 3}
		s.balls[0] = ballState{p: vec{x: -0.2, y: 0.6}}
		tb.c.applyStroke(&s.balls[0], vec{y: 1}, -0.2, 0.2, 3, 0)
		s.balls[1] = ballState{p: vec{x: -0.175, y: 1.3}}
		s.balls[2] = ballState{p: vec{x: 0.35, y: 2}}
		for i := range s.n {
			tb.c.startPhase(&s.balls[i], 0)
			s.next[i].at = math.Inf(1)
			for j := range s.n {
				s.pair[i][j] = math.Inf(1)
			}
		}
		s.notes.order, s.notes.slots = make([]rack.Ball, 3), make([]rack.Slot, 3)
		return s
	}
	s, p := start(), newPlain(tb, start(), 100)
	playTo(s, 1.5)
	p.runTo(1.5)
	for i := range s.n {
		d := s.balls[i].p.sub(p.balls[i].p).flatNorm() / 0.0254
		t.Logf("ball %d at %v: %.3f in apart after %d cushions", i, placeFromVec(s.balls[i].p), d, s.notes.ball[i].rails)
		if d > 1.0/3 {
			t.Errorf("ball %d: %.3f in apart", i, d)
		}
	}
	if p.rails < 3 {
		t.Errorf("only %d cushions met: the test shows little", p.rails)
	}
}

// playTo plays until a time and brings all free balls there.
func playTo(s *simulation, until float64) {
	for i := range s.n {
		s.predictEvents(i)
	}
	for {
		_, _, at := s.findNextEvent()
		if s.press.count == 0 && at > until {
			break
		}
		s.runNextEvent()
	}
	for i := range s.n {
		if s.balls[i].isFree() {
			s.c.advanceBall(&s.balls[i], until)
		}
	}
}

func asNumber(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

func meanOf(x []float64) (mean, deviation float64) {
	for _, v := range x {
		mean += v / float64(len(x))
	}
	for _, v := range x {
		deviation += (v - mean) * (v - mean) / float64(len(x)-1)
	}
	return mean, math.Sqrt(deviation)
}
