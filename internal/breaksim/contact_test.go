package breaksim

import (
	"fmt"
	"math"
	"testing"

	"breakwright/internal/rack"
)

// pairInPress is a moving ball about to touch one at rest, far from all rails,
// both held in the stiff phase.
func pairInPress(t *Table, speed, cut, roll float64) *simulation {
	s := &simulation{t: t, c: &t.c, n: 2}
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
	s.notes.hit = &FirstHit{}
	s.notes.order, s.notes.slots = nil, nil
	s.startStiffPhase(0, 1)
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
		for s.c.gapBetween(s.balls[0].p, s.balls[1].p) < 0 || lasted == 0 {
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
		tb := nineFoot(t, func(p *ModelParams) { p.Restitution = e })
		tb.c.slideDecel = 0 // the cloth would slow a slow ball while it touches
		for _, speed := range []float64{0.1, 1, 9} {
			s := pairInPress(tb, speed, 0, 0)
			s.runStiffPhase(math.Inf(1))
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
			tb.c.collideBalls(&a, &b)
			tb.c.startPhase(&a, 0)
			tb.c.startPhase(&b, 0)
			s := pairInPress(tb, 3, radians(cut), roll)
			for s.press.count > 0 {
				s.runStiffPhase(math.Inf(1))
			}
			turns := 3 * math.Sin(radians(cut)) * tb.c.contactTime(3*math.Cos(radians(cut))) / tb.c.diameter
			within := 0.003 + turns/2
			name := fmt.Sprintf("cut %g roll %g", cut, roll)
			if s.press.grip[0][1] != 0 || s.press.slid[0][1] != 0 {
				t.Errorf("%s: a contact that is over keeps its grip", name)
			}
			near(t, name+": object ball", s.balls[1].v.sub(b.v).norm()/3, 0, within)
			near(t, name+": cue ball", s.balls[0].v.sub(a.v).norm()/3, 0, within)
			near(t, name+": spin", s.balls[1].w.sub(b.w).norm()*tb.c.radius/3, 0, 2*within)
		}
	}
}

// The cloth goes on rubbing while balls are pressed: a stunned ball that meets
// another at 0.1 m/s and the one it drives lose together what sliding friction
// takes in the time of the contact.
func TestPress_TheClothRubsOn(t *testing.T) {
	tb := nineFoot(t, nil)
	s := pairInPress(tb, 0.1, 0, 0)
	s.runStiffPhase(math.Inf(1))
	lost := 0.1 - s.balls[0].v.x - s.balls[1].v.x
	lasted := s.now
	if at := lost / (2 * tb.c.slideDecel); at < 0.5*lasted || at > lasted {
		t.Errorf("%.5f m/s lost, as by %.6f s of friction on both; pressed for %.6f s", lost, at, lasted)
	}
}

// No spring starts loaded: balls found sunk into one another stay at rest when
// the stiff phase takes them in, and balls a gap apart touch only when they meet.
func TestPress_NoSpringStartsLoaded(t *testing.T) {
	tb := nineFoot(t, nil)
	for _, gap := range []float64{-1e-4, -1e-6, 1e-6, 1e-4} {
		s := alone(tb, ballState{p: vec{y: 1}})
		s.n = 2
		s.balls[1] = ballState{p: vec{y: 1 + tb.c.diameter + gap}}
		s.notes.order, s.notes.slots = make([]rack.Ball, s.n), make([]rack.Slot, s.n)
		s.startStiffPhase(0, 1)
		near(t, fmt.Sprintf("gap %g: distance of a slack spring", gap), s.press.touch[0][1], tb.c.diameter+min(gap, 0), 1e-15)
		s.runStiffPhase(math.Inf(1))
		if e := totalEnergy(s); e != 0 {
			t.Errorf("gap %g: %g J out of nothing", gap, e)
		}
	}
}

// rowStruck plays a row of eight balls with hair's-breadth gaps, struck at its end at 8 m/s,
// until the blow has run along it.
func rowStruck(tb *Table) *simulation {
	s := alone(tb, ballState{})
	s.n = 8
	for i := range s.n {
		s.balls[i] = ballState{p: vec{y: 0.5 + float64(i)*(tb.c.diameter+2e-9)}}
	}
	s.balls[0].p.y -= 0.01
	s.balls[0].v.y = 8
	s.notes.order, s.notes.slots = make([]rack.Ball, s.n), make([]rack.Slot, s.n)
	for i := range s.n {
		s.c.startPhase(&s.balls[i], 0)
		s.next[i] = ownEvent{at: math.Inf(1)}
	}
	playTo(s, 0.006)
	return s
}

// The speeds that come out of a row are those of far smaller steps.
func TestPress_ARowWithGaps(t *testing.T) {
	row := func(steps float64) *simulation {
		tb := nineFoot(t, nil)
		tb.c.stepsPerContact = steps
		return rowStruck(tb)
	}
	coarse, fine := row(80), row(5000)
	t.Logf("off by %.6f", apart(coarse, fine))
	if off := apart(coarse, fine); off > 0.004 {
		t.Errorf("velocities are off by %.5f m/s", off)
	}
	if last := fine.balls[7].v.y; last < 6 {
		t.Errorf("the last ball of the row leaves at %.2f m/s", last)
	}
}

// Of balls that meet pair by pair each hands on (1 + e)/2 of its speed to the next, which is
// as heavy (Newton's law of restitution with momentum, as in any textbook of mechanics): the
// eighth leaves at the seventh power of it. Where the balls of a row share the blow it is
// another speed.
func TestTable_WithInstantContacts(t *testing.T) {
	tb := nineFoot(t, nil)
	last := rowStruck(tb.WithInstantContacts()).balls[7].v.y
	near(t, "the last ball's speed", last, 8*math.Pow((1+tb.c.restitution)/2, 7), 0.03)
	if shared := rowStruck(tb).balls[7].v.y; math.Abs(shared-last) < 0.1 {
		t.Errorf("the last ball leaves at %.2f m/s where the blow is shared, too", shared)
	}
}

// Balls in a row to a cushion, the last frozen to it, the first struck square at
// them: no ball goes through the nose, energy does not grow, all come to rest.
func TestPress_AgainstACushion(t *testing.T) {
	tb := nineFoot(t, nil)
	for _, speed := range []float64{0.3, 2, 8} {
		s := alone(tb, ballState{})
		s.n = 4
		for i := range s.n {
			far := tb.c.noseReach + float64(s.n-1-i)*tb.c.diameter
			s.balls[i] = ballState{p: vec{x: tb.bounds.halfWidth - far, y: 0.5}}
		}
		s.balls[0].p.x -= 0.2
		s.balls[0].v.x = speed
		s.notes.order, s.notes.slots = make([]rack.Ball, s.n), make([]rack.Slot, s.n)
		for i := range s.n {
			s.c.startPhase(&s.balls[i], 0)
			s.next[i] = ownEvent{at: math.Inf(1)}
		}
		most := totalEnergy(s) * (1 + 1e-9)
		s.afterEvent = func(s *simulation) {
			for i := range s.n {
				b := &s.balls[i]
				if x := b.p.x; b.phase != gone && x > tb.bounds.halfWidth-0.8*tb.c.noseReach {
					t.Errorf("%g m/s: ball %d is at %.4f m, %.4f into the nose", speed, i, x, x-tb.bounds.halfWidth+tb.c.noseReach)
				}
			}
			if s.press.count == 0 && totalEnergy(s) > most {
				t.Errorf("%g m/s: energy grew to %g J", speed, totalEnergy(s))
			}
		}
		s.runToRest()
		if s.unsettled || s.lost > 0 || s.events > 400 {
			t.Errorf("%g m/s: unsettled %v, lost %d after %d events", speed, s.unsettled, s.lost, s.events)
		}
		if s.notes.ball[3].rails == 0 {
			t.Errorf("%g m/s: the ball at the cushion never met it", speed)
		}
	}
}

// Two balls that touch and are driven together by the cloth alone, the rear one
// with heavy topspin, neither sink into one another nor cost events without end.
func TestTouch_DoesNotCreep(t *testing.T) {
	tb := nineFoot(t, nil)
	s := alone(tb, ballState{})
	s.n = 2
	s.balls[0] = ballState{p: vec{y: 0.5}, v: vec{y: 0.2}, w: vec{x: -150}}
	s.balls[1] = ballState{p: vec{y: 0.5 + tb.c.diameter}, v: vec{y: 0.2}, w: vec{x: -0.2 / tb.c.radius}}
	s.notes.order, s.notes.slots = make([]rack.Ball, s.n), make([]rack.Slot, s.n)
	for i := range s.n {
		s.c.startPhase(&s.balls[i], 0)
		s.next[i] = ownEvent{at: math.Inf(1)}
	}
	touches := 0
	s.afterEvent = func(s *simulation) {
		gap := s.c.gapBetween(s.balls[0].positionAt(s.now), s.balls[1].positionAt(s.now))
		if s.press.count == 0 && gap < -2*s.c.overlap {
			t.Fatalf("after %.4f s the balls overlap by %.3g m", s.now, -gap)
		}
		touches++
	}
	s.runToRest()
	t.Logf("%d events", touches)
	if s.unsettled || touches > 3000 || touches < 5 {
		t.Errorf("%d events, unsettled %v", touches, s.unsettled)
	}
}

// rackAfter plays a break until some time after the first touch and gives the
// run with all balls brought to that moment.
func rackAfter(tb *Table, in BreakInput, seconds float64) *simulation {
	s := tb.setUpBreak(in, nil)
	for i := range s.n {
		s.predictEvents(i)
	}
	for s.notes.hit == nil {
		s.runNextEvent()
	}
	until := s.notes.hitAt + seconds
	for {
		_, _, at := s.findNextEvent()
		if s.press.count > 0 {
			s.runStiffPhase(min(at, until))
			if s.now >= until {
				break
			}
			continue
		}
		if at > until {
			break
		}
		s.runNextEvent()
	}
	for i := range s.n {
		if s.balls[i].isFree() {
			s.c.advanceBall(&s.balls[i], until)
		}
	}
	return s
}

// apart is the root mean square difference of two runs' velocities, in m/s.
func apart(a, b *simulation) float64 {
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
	at := func(steps float64) *simulation {
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
