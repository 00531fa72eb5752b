package breaksim

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A quartic that falls through zero at known places: the first one must be
// found, to rounding, wherever the others lie.
func TestFirstFall_KnownRoots(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 20000 {
		// (r0-t)(t-r1)(t-r2)(t-r3) with signs that make it positive at 0.
		var r [4]float64
		for i := range r {
			r[i] = rng.Float64()*4 - 1
		}
		f := product(r)
		if f[0] < 0 {
			for i := range f {
				f[i] = -f[i]
			}
		}
		want := math.Inf(1)
		for _, root := range r {
			if root > 0 && root <= 2 {
				want = min(want, root)
			}
		}
		got, ok := f.firstZeroCrossing(2)
		if ok != !math.IsInf(want, 1) {
			t.Fatalf("roots %v: found %v, want %v", r, ok, want)
		}
		if ok && math.Abs(f.valueAt(got)) > 1e-12 {
			t.Fatalf("roots %v: %g is no root, the polynomial is %g there", r, got, f.valueAt(got))
		}
		if ok && got > want+1e-5 {
			t.Fatalf("roots %v: %g found, the first is %g", r, got, want)
		}
	}
}

func product(roots [4]float64) polynomial {
	f := polynomial{1}
	for _, r := range roots {
		var g polynomial
		for i := range 4 {
			g[i+1] += f[i]
			g[i] -= r * f[i]
		}
		g[4] += -r * f[4]
		f = g
	}
	return f
}

// A grazing contact: the polynomial comes within a hair of zero, above and
// below. It must be seen exactly when it is below.
func TestFirstFall_Grazing(t *testing.T) {
	for _, depth := range []float64{1e-6, 1e-9, 1e-12} {
		// ((t-1)² - depth)·((t-3)²+1): dips to -depth·5 at t = 1.
		dips := func(d float64) polynomial {
			a, b := [3]float64{1 - d, -2, 1}, [3]float64{10, -6, 1}
			var f polynomial
			for i, x := range a {
				for j, y := range b {
					f[i+j] += x * y
				}
			}
			return f
		}
		f := dips(depth)
		if at, ok := f.firstZeroCrossing(2); !ok || math.Abs(at-1) > 1.1*math.Sqrt(depth) {
			t.Errorf("dip of %g: found %v at %g, want just before 1", depth, ok, at)
		}
		f = dips(-depth)
		if at, ok := f.firstZeroCrossing(2); ok {
			t.Errorf("miss by %g: a touch was found at %g", depth, at)
		}
	}
}

func TestFall2_EveryKind(t *testing.T) {
	for _, c := range []struct {
		name    string
		a, b, c float64
		want    float64 // 0 for none
	}{
		{"straight down", 6, -2, 0, 3},
		{"straight up", 6, 2, 0, 0},
		{"valley, first root", 2, -3, 1, 1},
		{"valley never reached", 2, -1, 1, 0},
		{"hill from above", 2, 1, -1, 2},
		{"hill from below, far side", -2, 3, -1, 2},
		{"valley from below", -1, -1, 1, 0},
		{"nearly straight", 1, -1, 1e-18, 1},
		{"standing", 1, 0, 0, 0},
	} {
		got, ok := quadraticZeroCrossing(c.a, c.b, c.c)
		if ok != (c.want > 0) || (ok && math.Abs(got-c.want) > 1e-15*c.want) {
			t.Errorf("%s: %g, %v; want %g", c.name, got, ok, c.want)
		}
	}
}

// Two balls on curved paths: the time found must be the first at which a fine
// walk along both paths sees them overlap.
func TestMeetingTime_AgreesWithAWalk(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	met := 0
	for range 2000 {
		d := vec{x: 0.1 + rng.Float64(), y: rng.Float64() - 0.5}
		v := vec{x: -4 * rng.Float64(), y: 2*rng.Float64() - 1}
		a := vec{x: 4*rng.Float64() - 2, y: 4*rng.Float64() - 2}
		f := distancePolynomial(d, v, a, 0.05715)
		got, ok := f.firstZeroCrossing(0.6)
		walked, seen := 0.0, false
		for ; walked <= 0.6 && !seen; walked += 1e-4 {
			seen = d.plusScaled(walked, v).plusScaled(walked*walked/2, a).norm() < 0.05715
		}
		if seen && !ok {
			t.Fatalf("d %v v %v a %v: a walk meets at %g, no root found", d, v, a, walked)
		}
		if ok && seen {
			met++
			if math.Abs(got-walked) > 3e-4 {
				t.Fatalf("d %v v %v a %v: root %g, a walk meets at %g", d, v, a, got, walked)
			}
		}
	}
	if met < 100 {
		t.Fatalf("only %d pairs met: the test shows nothing", met)
	}
}
