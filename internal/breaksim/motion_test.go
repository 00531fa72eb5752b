package breaksim

import (
	"fmt"
	"math"
	"testing"
)

// Slide to roll of a solid ball, closed forms of Coriolis 1835 and Marlow 1995
// (from memory), the numbers worked independently for μ = 0.2, g = 9.81: final
// speed v(5+2s)/7, time 2v|1-s|/(7μg), distance (v²-vf²)/(2μg), with s the
// forward spin by that of rolling. Tolerance: half the last printed digit.
func TestSlideToRoll_PublishedValues(t *testing.T) {
	c := &nineFoot(t, nil).c
	for _, want := range []struct{ v, s, final, seconds, metres float64 }{
		{2, 0, 2 * 0.714286, 0.291248, 0.499282},
		{2, -1, 2 * 3.0 / 7, 0.582496, 0.832137},
		{2, 0.5, 2 * 6.0 / 7, 0.145624, 0.270445},
		{1, 0, 0.714286, 0.145624, 0.124821},
		{4, 0, 4 * 0.714286, 0.582496, 1.997129},
		{8, 0, 8 * 0.714286, 1.164992, 7.988517},
	} {
		t.Run(fmt.Sprintf("v=%g,s=%g", want.v, want.s), func(t *testing.T) {
			b := ballState{v: vec{x: want.v}, w: vec{y: want.s * want.v / c.radius}}
			c.startPhase(&b, 0)
			c.endPhase(&b)
			if b.phase != rolling {
				t.Fatalf("phase %d after sliding", b.phase)
			}
			near(t, "final speed", b.v.x, want.final, 4e-6)
			near(t, "time", b.from, want.seconds, 1e-6)
			near(t, "distance", b.p.x, want.metres, 1e-6)
		})
	}
}

// Roll-out distance v²/(2·μr·g) for μr = 0.01: 5.097 m from 1 m/s, 20.39 m from
// 2 m/s (definition).
func TestRoll_RollsOut(t *testing.T) {
	c := &nineFoot(t, nil).c
	for v, metres := range map[float64]float64{1: 5.097, 2: 20.39} {
		b := rollingBall(c, v)
		c.startPhase(&b, 0)
		c.endPhase(&b)
		if b.phase != still || b.v != (vec{}) {
			t.Errorf("from %g m/s: not at rest: %+v", v, b)
		}
		near(t, "distance", b.p.x, metres, 0.005)
	}
}

// A flat break at 20 mph over 47.75 in arrives at 8.6706 m/s after 0.13773 s
// with a forward spin of 0.0779 of rolling (the sliding laws, worked
// independently).
func TestSlide_ArrivalOfAFlatBreak(t *testing.T) {
	c := &nineFoot(t, nil).c
	var b ballState
	c.applyStroke(&b, vec{y: 1}, 0, 0, 20*0.44704, 0)
	c.startPhase(&b, 0)
	at, ok := quadraticZeroCrossing(47.75*0.0254, -b.v.y, -b.a.y/2)
	if !ok {
		t.Fatal("never arrives")
	}
	c.advanceBall(&b, at)
	near(t, "time", at, 0.13773, 5e-6)
	near(t, "speed", b.v.y, 8.6706, 5e-5)
	near(t, "roll", -b.w.x*c.radius/b.v.y, 0.0779, 5e-5)
}

// A tip 0.4 of the radius above centre gives natural roll, 0.5 gives 1.25 of it
// (Coriolis 1835; spin is 5/2 of the offset).
func TestStroke_TipToSpin(t *testing.T) {
	c := &nineFoot(t, nil).c
	for tip, roll := range map[float64]float64{0.4: 1, 0.5: 1.25, 0: 0, -0.2: -0.5} {
		var b ballState
		c.applyStroke(&b, vec{x: 0.6, y: 0.8}, tip, 0, 5, 0)
		forward := (b.w.y*b.v.x - b.w.x*b.v.y) * c.radius / 25
		near(t, fmt.Sprintf("roll of tip %g", tip), forward, roll, 1e-12)
		near(t, "side spin", b.w.z, 0, 0)
	}
	var b ballState
	c.applyStroke(&b, vec{y: 1}, 0, 0.2, 5, 0)
	if !(b.w.z > 0) {
		t.Errorf("right side spin turns the ball %g rad/s, want anticlockwise from above", b.w.z)
	}
}

// Phases join: at each end of phase place and velocity go on without a jump,
// energy does not grow, and side spin only slows.
func TestPhases_JoinAndLoseEnergy(t *testing.T) {
	c := &nineFoot(t, nil).c
	b := ballState{p: vec{z: 0.05}, v: vec{x: 3, y: -2, z: 1.5}, w: vec{x: 80, y: -40, z: 60}}
	c.startPhase(&b, 0)
	energy, spin := c.ballEnergy(&b), b.w.z
	for steps := 0; b.phase != still; steps++ {
		if steps > 50 {
			t.Fatal("the ball does not come to rest")
		}
		at, airborneBefore := b.positionAt(b.until), b.phase == airborne
		speed := b.velocityAt(b.until)
		c.endPhase(&b)
		near(t, "jump of place", b.p.sub(at).flatNorm(), 0, 1e-12)
		if !airborneBefore && b.phase != still {
			near(t, "jump of velocity", b.v.sub(speed).norm(), 0, 1e-9)
		}
		now := c.ballEnergy(&b)
		if now > energy*(1+1e-9) {
			t.Errorf("energy grew from %g to %g J", energy, now)
		}
		if math.Abs(b.w.z) > math.Abs(spin) {
			t.Errorf("side spin grew from %g to %g", spin, b.w.z)
		}
		energy, spin = now, b.w.z
	}
}

// A ball dropped on the bed flies for as long as falling takes and comes up with
// the bed's share of its speed.
func TestFly_FallsAndBounces(t *testing.T) {
	c := &nineFoot(t, nil).c
	b := ballState{p: vec{z: 0.1}}
	c.startPhase(&b, 0)
	near(t, "time to fall", b.until, math.Sqrt(2*0.1/9.81), 1e-12)
	c.endPhase(&b)
	near(t, "speed up", b.v.z, 0.5*math.Sqrt(2*9.81*0.1), 1e-12)
}

// ballEnergy in joules: of motion, of spin and of height.
func (c *constants) ballEnergy(b *ballState) float64 {
	return c.mass*(b.v.dot(b.v)/2+c.gravity*b.p.z) + c.inertia*b.w.dot(b.w)/2
}
