package breaksim

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// squareHit returns speed out by speed in of a ball that goes straight into a
// cushion with that forward spin by that of rolling.
func squareHit(c *constants, speed, roll float64) (ratio float64, after ballState) {
	b := ballState{v: vec{x: -speed}, w: vec{y: -roll * speed / c.radius}}
	c.reboundFromNose(&b, noseContact{in: vec{x: 1}, share: 1})
	return b.v.x / speed, b
}

// The nose meets the ball at arcsin(2h/D - 1) above its centre: 15.66 degrees
// for h = 0.635 D (14.48 to 16.86 within the WPA tolerance; geometry).
func TestNose_Slant(t *testing.T) {
	for height, want := range map[float64]float64{0.635: 15.66, 0.625: 14.48, 0.645: 16.86} {
		c := nineFoot(t, func(p *ModelParams) { p.NoseHeight = height }).c
		n := c.noseNormal(&ballState{}, noseContact{in: vec{x: 1}})
		near(t, fmt.Sprintf("slant of a nose at %g", height), -degrees(math.Asin(n.z)), want, 0.005)
	}
}

// Without friction the rebound has a closed form. On the bed, which takes up the
// downward push, the energy restitution e is the speed ratio itself; and the
// part along the rail is kept. In the air the blow acts along the slant:
// v - (1+e)(v·n)n.
func TestRebound_ClosedFormsWithoutFriction(t *testing.T) {
	c := nineFoot(t, nil).c
	c.cushionMu, c.slide, c.cushionSlow, c.cushionE = 0, 0, 0, 0.9
	b := ballState{v: vec{x: -3, y: 1}}
	c.reboundFromNose(&b, noseContact{in: vec{x: 1}, share: 1})
	near(t, "off the rail", b.v.x, 2.7, 1e-9)
	near(t, "along the rail", b.v.y, 1, 1e-12)
	for _, height := range []float64{0.001, 0.01, 0.02} {
		b := ballState{p: vec{z: height}, v: vec{x: -3, y: 1, z: 0.2}}
		n := c.noseNormal(&b, noseContact{in: vec{x: 1}})
		want := b.v.plusScaled(-1.9*b.v.dot(n), n)
		c.reboundFromNose(&b, noseContact{in: vec{x: 1}, share: 1})
		near(t, fmt.Sprintf("in the air at %g", height), b.v.sub(want).norm(), 0, 1e-9)
	}
}

// One small part of the blow obeys the equations of motion of Mathavan, Jackson
// and Parkin 2010, rederived here: along the normal n, friction against the slip
// at the nose, the bed's counter-push to what is downward in both, friction
// against the slip on the bed.
func TestPressNose_EquationsOfMotion(t *testing.T) {
	c := nineFoot(t, nil).c
	rng := rand.New(rand.NewPCG(9, 10))
	const part = 1e-6
	for range 500 {
		b := ballState{v: vec{x: -1 - 3*rng.Float64(), y: 2 * rng.NormFloat64()}}
		b.w = vec{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}.scaledBy(100)
		n := c.noseNormal(&b, noseContact{in: vec{x: 1}})
		atNose := b.v.plusScaled(-b.v.dot(n), n).add(b.w.cross(n.scaledBy(-c.radius)))
		onBed := b.v.add(b.w.cross(vec{z: -c.radius}))
		rubNose := atNose.scaledBy(-c.cushionMu / atNose.norm())
		push := n.add(rubNose)
		rubBed := onBed.scaledBy(-c.slide * max(-push.z, 0) / onBed.norm())
		dv := push.add(rubBed)
		dv.z = max(dv.z, 0)
		dw := n.scaledBy(-c.radius).cross(rubNose).add(vec{z: -c.radius}.cross(rubBed)).scaledBy(2.5 / (c.radius * c.radius))
		after := b
		c.pressNose(&after, n, part)
		offV, offW := after.v.sub(b.v).scaledBy(1/part).sub(dv).norm(), after.w.sub(b.w).scaledBy(1/part).sub(dw).norm()
		if offV > 1e-4 || offW > 1e-2 {
			t.Fatalf("%+v: change of velocity off by %g, of spin by %g", b, offV, offW)
		}
	}
}

// A square hit comes back at 0.6 to 0.9 of its speed, less the faster it was
// (Alciatore, physical-properties page, from memory), for the speeds of a break
// from a soft touch up to 8 m/s, sliding or rolling.
func TestRebound_SpeedRatioOfASquareHit(t *testing.T) {
	c := nineFoot(t, nil).c
	for _, roll := range []float64{0, 1} {
		last := 1.0
		for _, speed := range []float64{0.5, 1, 2, 4, 6, 8} {
			ratio, _ := squareHit(&c, speed, roll)
			if ratio < 0.6 || ratio > 0.9 {
				t.Errorf("roll %g, %g m/s: ratio %.3f, want 0.6 to 0.9", roll, speed, ratio)
			}
			if ratio >= last {
				t.Errorf("roll %g, %g m/s: ratio %.3f, not below %.3f of a slower one", roll, speed, ratio, last)
			}
			last = ratio
		}
	}
}

// Spin does what players know: running side lengthens the rebound, reverse side
// shortens it (common practice, no source), a ball that comes in rolling and
// without side takes up running side, by friction at the nose.
func TestRebound_SideSpin(t *testing.T) {
	c := nineFoot(t, nil).c
	out := func(side float64) (angle, spin float64) {
		b := ballState{v: vec{x: -2, y: 2}, w: vec{x: -2 / c.radius, y: -2 / c.radius, z: side}}
		c.reboundFromNose(&b, noseContact{in: vec{x: 1}, share: 1})
		return degrees(math.Atan2(b.v.y, b.v.x)), b.w.z
	}
	plain, taken := out(0)
	running, _ := out(60)
	reverse, _ := out(-60)
	if !(running > plain && plain > reverse) {
		t.Errorf("out at %.1f with running, %.1f without, %.1f with reverse side, want them falling", running, plain, reverse)
	}
	if !(taken > 0) {
		t.Errorf("without side the ball takes up %.1f rad/s, want running side", taken)
	}
}

// A fast ball with more topspin than roll climbs the nose and hops; a stunned
// one is held down on the bed.
func TestRebound_TopspinClimbs(t *testing.T) {
	c := nineFoot(t, nil).c
	if _, b := squareHit(&c, 8, 0); b.v.z != 0 {
		t.Errorf("a stunned ball leaves the bed at %g m/s", b.v.z)
	}
	c.cushionMu = 0.3
	if _, b := squareHit(&c, 8, 2); !(b.v.z > 0) {
		t.Errorf("with overspin it rises at %g m/s, want more than 0", b.v.z)
	}
}

// Whatever comes in, energy does not grow, the ball does not go on into the
// rubber, and the number of parts the blow is cut into is enough.
func TestRebound_LosesEnergyAndGoesOut(t *testing.T) {
	c := nineFoot(t, nil).c
	rng := rand.New(rand.NewPCG(7, 8))
	for range 5000 {
		b := ballState{v: vec{x: -8 * rng.Float64(), y: 6 * rng.NormFloat64()}}
		b.w = vec{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}.scaledBy(150)
		if rng.IntN(3) == 0 {
			b.p.z, b.v.z = 0.03*rng.Float64(), rng.NormFloat64()
		}
		at := noseContact{in: vec{x: 1}, share: 1}
		n := c.noseNormal(&b, at)
		before := c.ballEnergy(&b)
		if c.reboundFromNose(&b, at) <= 0 {
			continue
		}
		if now := c.ballEnergy(&b); now > before*(1+1e-9) {
			t.Fatalf("energy grew from %g to %g J", before, now)
		}
		if b.v.dot(n) < -1e-9 || !b.v.isFinite() || !b.w.isFinite() {
			t.Fatalf("after the blow: %+v", b)
		}
	}
}

// The parts of the blow converge: 24 give the rebound of 4096 within half a
// percent of the speed.
func TestRebound_PartsAreEnough(t *testing.T) {
	c := nineFoot(t, nil).c
	for _, roll := range []float64{-1, 0, 1} {
		coarse := ballState{v: vec{x: -4, y: 2}, w: vec{x: -roll * 2 / c.radius, y: -roll * 4 / c.radius, z: 30}}
		fine := coarse
		at := noseContact{in: vec{x: 1}, share: 1}
		c.reboundFromNose(&coarse, at)
		c.reboundInParts(&fine, at, 4096)
		near(t, fmt.Sprintf("roll %g: velocity", roll), coarse.v.sub(fine.v).norm()/4.5, 0, 0.005)
	}
}
