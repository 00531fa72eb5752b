package breaksim

import (
	"fmt"
	"math"
	"testing"
)

// pairInPress is a moving ball about to touch one at rest, far from all rails,
// both held in the stiff phase.
func pairInPress(t *Table, speed, cut, roll float64) *run {
	s := &run{t: t, c: &t.c, n: 2}
	a, b := cutShot(s.c, speed, cut, roll)
	middle := vec{y: 1.2}
	a.p, b.p = a.p.add(middle), b.p.add(middle)
	s.balls[0], s.balls[1] = a, b
	for i := range s.n {
		s.balls[i].phase = still
		s.next[i].at = math.Inf(1)
		for j := range s.n {
			s.pair[i][j] = math.Inf(1)
		}
	}
	s.notes.hit = &Hit{}
	s.notes.order, s.notes.slots = nil, nil
	s.startPress(0, 1)
	return s
}

// Contact time of two pool balls after Hertz (Landau & Lifshitz vol. 7): 390 µs
// at 1 m/s and 251 µs at 9 m/s for 5.84 GPa, 0.34 and 0.170 kg. The springs must
// show it when integrated, without their damping, and the formula too.
func TestPress_HertzContactTime(t *testing.T) {
	tb := nineFoot(t, nil)
	tb.c = *elastic(tb.c)
	tb.c.stepsPerContact = 1000
	for speed, want := range map[float64]float64{1: 390e-6, 9: 251e-6} {
		s := pairInPress(tb, speed, 0, 0)
		lasted := 0.0
		for s.c.gap(s.balls[0].p, s.balls[1].p) < 0 || lasted == 0 {
			s.stepForward(s.press.step)
			lasted += s.press.step
		}
		near(t, fmt.Sprintf("integrated contact time at %g m/s", speed), lasted*1e6, want*1e6, 0.7)
		near(t, fmt.Sprintf("formula at %g m/s", speed), tb.c.contactTime(speed)*1e6, want*1e6, 0.5)
	}
}

// The damped spring gives the restitution asked for at every speed (the closed
// form of Antypov & Elliott 2011 ends the contact a little later than ours,
// which never pulls; hence the tolerance).
func TestPress_RestitutionIsTheSameAtEverySpeed(t *testing.T) {
	for _, e := range []float64{0.92, 0.95, 0.98} {
		tb := nineFoot(t, func(p *Params) { p.Restitution = e })
		tb.c.slideDecel = 0 // the cloth would slow a slow ball while it touches
		for _, speed := range []float64{0.1, 1, 9} {
			s := pairInPress(tb, speed, 0, 0)
			s.squeeze(math.Inf(1))
			got := (s.balls[1].v.x - s.balls[0].v.x) / speed
			near(t, fmt.Sprintf("restitution %g at %g m/s", e, speed), got, e, 0.002)
		}
	}
}

// A contact of two balls alone comes out of the stiff phase as it comes out of
// the instant law: the throw, the speeds and the spins agree to 0.3 % of the
// speed, and to half the angle by which the line of centres turns while the
// balls touch, which the instant law leaves out.
func TestPress_AgreesWithTheInstantContact(t *testing.T) {
	tb := nineFoot(t, nil)
	tb.c.creep = 0.002
	tb.c.stepsPerContact = 2000
	for _, cut := range []float64{0, 15, 30, 45, 60} {
		for _, roll := range []float64{-1, 0, 1} {
			a, b := cutShot(&tb.c, 3, radians(cut), roll)
			tb.c.collide(&a, &b)
			tb.c.set(&a, 0)
			tb.c.set(&b, 0)
			s := pairInPress(tb, 3, radians(cut), roll)
			for s.press.count > 0 {
				s.squeeze(math.Inf(1))
			}
			turns := 3 * math.Sin(radians(cut)) * tb.c.contactTime(3*math.Cos(radians(cut))) / tb.c.diameter
			within := 0.003 + turns/2
			name := fmt.Sprintf("cut %g roll %g", cut, roll)
			near(t, name+": object ball", s.balls[1].v.sub(b.v).norm()/3, 0, within)
			near(t, name+": cue ball", s.balls[0].v.sub(a.v).norm()/3, 0, within)
			near(t, name+": spin", s.balls[1].w.sub(b.w).norm()*tb.c.radius/3, 0, 2*within)
		}
	}
}

// rackAfter plays a break until some time after the first touch and gives the
// run with all balls brought to that moment.
func rackAfter(tb *Table, in Input, seconds float64) *run {
	s := tb.setUp(in, nil)
	for i := range s.n {
		s.foresee(i)
	}
	for s.notes.hit == nil {
		s.step()
	}
	until := s.notes.hitAt + seconds
	for {
		_, _, at := s.soonest()
		if s.press.count > 0 {
			s.squeeze(min(at, until))
			if s.now >= until {
				break
			}
			continue
		}
		if at > until {
			break
		}
		s.step()
	}
	for i := range s.n {
		if s.balls[i].free() {
			s.c.advance(&s.balls[i], until)
		}
	}
	return s
}

// apart is the root mean square difference of two runs' velocities, in m/s.
func apart(a, b *run) float64 {
	sum := 0.0
	for i := range a.n {
		d := a.balls[i].v.sub(b.balls[i].v)
		sum += d.dot(d)
	}
	return math.Sqrt(sum / float64(a.n))
}

// The break-up of a tight rack, with steps halved again and again: the error
// against the finest must fall by about four each time (order two, as of the
// Verlet scheme; friction and the ends of contacts are not smooth, so the order
// measured is the mean over the halvings).
func TestPress_ConvergesWithTheStep(t *testing.T) {
	in := leftBreak()
	at := func(steps float64) *run {
		tb := nineFoot(t, nil)
		tb.c.stepsPerContact = steps
		return rackAfter(tb, in, 0.004)
	}
	finest := at(10240)
	var errors []float64
	for steps := 40.0; steps <= 640; steps *= 2 {
		e := apart(at(steps), finest)
		errors = append(errors, e)
		t.Logf("%4.0f steps a contact: velocities off by %.3g m/s", steps, e)
	}
	order := math.Log2(errors[0]/errors[len(errors)-1]) / float64(len(errors)-1)
	t.Logf("order %.2f", order)
	if order < 1.6 || order > 2.6 {
		t.Errorf("order of convergence %.2f, want about 2", order)
	}
	if errors[1] > 0.02 {
		t.Errorf("at the default 80 steps velocities are off by %g m/s", errors[1])
	}
}
