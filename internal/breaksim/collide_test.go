package breaksim

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// cutShot returns a cue ball moving along x and an object ball it touches at a cut
// angle (radians), the object ball to the left of the line.
func cutShot(c *constants, speed, cut, roll float64) (cueBall, object ballState) {
	cueBall = ballState{v: vec{x: speed}, w: vec{y: roll * speed / c.radius}}
	object = ballState{p: vec{x: c.diameter * math.Cos(cut), y: c.diameter * math.Sin(cut)}}
	return cueBall, object
}

// Momentum is kept, angular momentum about any point is kept, energy does not
// grow, whatever two balls in the air meet with.
func TestCollide_KeepsMomentumLosesEnergy(t *testing.T) {
	c := &nineFoot(t, nil).c
	rng := rand.New(rand.NewPCG(5, 6))
	random := func(size float64) vec {
		return vec{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}.scaledBy(size)
	}
	for range 5000 {
		d := random(1)
		d = d.scaledBy(c.diameter / d.norm())
		a := ballState{p: vec{z: 1}, v: random(3), w: random(100)}
		b := ballState{p: vec{z: 1}.add(d), v: random(3), w: random(100)}
		before, turning := a.v.add(b.v), angular(c, &a).add(angular(c, &b))
		energy := c.ballEnergy(&a) + c.ballEnergy(&b)
		c.collideBalls(&a, &b)
		near(t, "change of momentum", a.v.add(b.v).sub(before).norm(), 0, 1e-12)
		near(t, "change of angular momentum", angular(c, &a).add(angular(c, &b)).sub(turning).norm(), 0, 1e-12)
		if now := c.ballEnergy(&a) + c.ballEnergy(&b); now > energy*(1+1e-12) {
			t.Fatalf("energy grew from %g to %g J", energy, now)
		}
	}
}

// angular momentum about the origin.
func angular(c *constants, b *ballState) vec {
	return b.p.cross(b.v).scaledBy(c.mass).plusScaled(c.inertia, b.w)
}

// Stun, no loss: the balls part at 90 degrees, the object ball along the line of
// centres (Coriolis 1835; the 90-degree rule, Alciatore, Billiards Digest 2004).
func TestCollide_StunPartsAtRightAngles(t *testing.T) {
	c := elastic(nineFoot(t, nil).c)
	for _, cut := range []float64{10, 30, 45, 60, 80} {
		a, b := cutShot(c, 2, radians(cut), 0)
		c.collideBalls(&a, &b)
		near(t, "angle between", degrees(math.Acos(a.v.dot(b.v)/(a.v.norm()*b.v.norm()))), 90, 1e-9)
		near(t, "object ball's angle", degrees(math.Atan2(b.v.y, b.v.x)), cut, 1e-9)
	}
}

// deflection is the angle by which a rolling cue ball has left its line once it
// rolls again.
func deflection(c *constants, cut float64) float64 {
	a, b := cutShot(c, 2, cut, 1)
	c.collideBalls(&a, &b)
	a = settled(c, a)
	return -degrees(math.Atan2(a.v.y, a.v.x))
}

// Rolling cue ball: tan d = sin c cos c/(sin² c + 2/5) for restitution 1
// (Alciatore TP 3.3 and A.4; Wallace & Schroeder 1988, from memory), the table
// worked independently, also for 0.95. Tolerance: half the last digit.
func TestCollide_RollingDeflection(t *testing.T) {
	lossless := elastic(nineFoot(t, nil).c)
	lossy := *lossless
	lossy.restitution = 0.95
	for _, want := range []struct{ fullness, none, some float64 }{
		{1, 0, 0}, {7.0 / 8, 16.615, 15.359}, {3.0 / 4, 27.626, 25.905},
		{2.0 / 3, 31.586, 29.878}, {1.0 / 2, 33.670, 32.265}, {1.0 / 3, 30.474, 29.442},
		{1.0 / 4, 27.267, 26.422}, {1.0 / 8, 19.972, 19.421},
	} {
		cut := math.Asin(1 - want.fullness)
		near(t, fmt.Sprintf("deflection at %.3f", want.fullness), deflection(lossless, cut), want.none, 6e-4)
		near(t, fmt.Sprintf("deflection at %.3f, restitution 0.95", want.fullness), deflection(&lossy, cut), want.some, 6e-4)
	}
}

// The greatest deflection is 33.749 degrees, at a cut of 28.1255 (sin² c = 2/9,
// sin d = 5/9; derived from the formula above), and 31.449 to 33.159 for
// restitutions of 0.92 to 0.98.
func TestCollide_GreatestDeflection(t *testing.T) {
	for restitution, want := range map[float64]float64{1: 33.749, 0.92: 31.449, 0.94: 32.009, 0.96: 32.579, 0.98: 33.159} {
		c := elastic(nineFoot(t, nil).c)
		c.restitution = restitution
		most, where := 0.0, 0.0
		for cut := 20.0; cut < 36; cut += 0.005 {
			if d := deflection(c, radians(cut)); d > most {
				most, where = d, cut
			}
		}
		near(t, fmt.Sprintf("greatest deflection, restitution %g", restitution), most, want, 6e-4)
		if restitution == 1 {
			near(t, "cut of the greatest deflection", where, 28.1255, 0.02)
		}
	}
}

// Head-on: cue ball (1-e)/2, object ball (1+e)/2, energy (1+e²)/2; rolling, once
// both roll again: [2+5(1-e)/2]/7 and 5(1+e)/14; with full backspin and e = 1 the
// cue ball comes back at 2/7 (textbook, worked independently).
func TestCollide_HeadOn(t *testing.T) {
	c := elastic(nineFoot(t, nil).c)
	c.restitution = 0.95
	a, b := cutShot(c, 1, 0, 0)
	before := c.ballEnergy(&a)
	c.collideBalls(&a, &b)
	near(t, "cue ball", a.v.x, 0.025, 1e-12)
	near(t, "object ball", b.v.x, 0.975, 1e-12)
	near(t, "energy kept", (c.ballEnergy(&a)+c.ballEnergy(&b))/before, 0.95125, 1e-12)
	for e, want := range map[float64][2]float64{1: {2.0 / 7, 5.0 / 7}, 0.95: {0.303571, 0.696429}} {
		c.restitution = e
		a, b := cutShot(c, 1, 0, 1)
		c.collideBalls(&a, &b)
		a, b = settled(c, a), settled(c, b)
		near(t, "follow of the cue ball", a.v.x, want[0], 5e-7)
		near(t, "object ball rolling", b.v.x, want[1], 5e-7)
	}
	c.restitution = 1
	a, b = cutShot(c, 1, 0, -1)
	c.collideBalls(&a, &b)
	near(t, "draw of the cue ball", settled(c, a).v.x, -0.285714, 5e-7)
}

// Throw, Alciatore TP A.14's law (from memory) as closed forms for restitution 1:
// stun atan(min(μ(v sin c), tan c/7)), rolling atan(min(μ(v cos c·…)…)) given by
// the values for 1 m/s: stun cut 30: 4.154, cut 45: 3.433; 3.129 m/s cut 30:
// 1.698 degrees.
func TestCollide_ThrowOfAStunShot(t *testing.T) {
	c := nineFoot(t, nil).c
	c.restitution = 1
	for _, want := range []struct{ v, cut, throw float64 }{{1, 30, 4.154}, {1, 45, 3.433}, {3.129, 30, 1.698}} {
		a, b := cutShot(&c, want.v, radians(want.cut), 0)
		c.collideBalls(&a, &b)
		near(t, fmt.Sprintf("throw at %g m/s, cut %g", want.v, want.cut),
			want.cut-degrees(math.Atan2(b.v.y, b.v.x)), want.throw, 1e-3)
	}
}

// The ghost ball: a cue ball whose line misses the object ball's centre by b
// meets it at a cut of arcsin(b/D); and aim that is off by a at a distance d
// cuts by arcsin(d·sin a/D): d = 50 in, a = 0.25, 0.5, 1 degree give 5.564,
// 11.182, 22.820 degrees (geometry, worked independently).
func TestMeetingTime_GhostBall(t *testing.T) {
	tb := nineFoot(t, nil)
	for aim, cut := range map[float64]float64{0.25: 5.564, 0.5: 11.182, 1: 22.820} {
		s := &simulation{t: tb, c: &tb.c, n: 2}
		s.balls[0] = ballState{p: vec{y: 0.5}, v: vec{x: 5 * math.Sin(radians(aim)), y: 5 * math.Cos(radians(aim))}}
		s.balls[1] = ballState{p: vec{y: 0.5 + 50*0.0254}}
		for i := range s.n {
			tb.c.startPhase(&s.balls[i], 0)
			s.next[i] = ownEvent{at: math.Inf(1)}
		}
		at := s.meetingTime(0, 1)
		line := s.balls[1].p.sub(s.balls[0].positionAt(at))
		near(t, "distance of centres", line.norm(), tb.c.diameter, 1e-12)
		got := degrees(math.Atan2(line.x, line.y))
		near(t, fmt.Sprintf("cut for aim off by %g", aim), aim-got, cut, 1e-3)
	}
}
