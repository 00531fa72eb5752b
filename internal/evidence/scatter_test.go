package evidence

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// tenPoints is the cloud behind the values computed independently below.
var tenPoints = []Point{{.5, 1}, {1.5, -.5}, {-.5, .5}, {2, 1.5}, {1, 0}, {0, -1}, {1.5, 2}, {.5, .5}, {2.5, 1}, {1, 1}}

// Computed independently by two libraries and a separate program.
func TestScatter_TenPoints(t *testing.T) {
	s := ScatterOf(tenPoints)
	near(t, "mean x", s.Mean.X, 1, 1e-12)
	near(t, "mean y", s.Mean.Y, .6, 1e-12)
	near(t, "xx", s.XX, .833333, digits(6))
	near(t, "xy", s.XY, .361111, digits(6))
	near(t, "yy", s.YY, .822222, digits(6))
	axes, ellipse := s.PrincipalAxes(), s.EllipseHolding(.95)
	near(t, "first eigenvalue", axes.Major*axes.Major, 1.188932, digits(6))
	near(t, "second eigenvalue", axes.Minor*axes.Minor, .466624, digits(6))
	near(t, "angle", axes.AngleRadians*180/math.Pi, 44.5593, digits(4))
	near(t, "major", ellipse.Major, 2.668978, digits(6))
	near(t, "minor", ellipse.Minor, 1.672053, digits(6))
	near(t, "area", math.Pi*ellipse.Major*ellipse.Minor, 14.019897, digits(6))
	near(t, "standard distance", standardDistance(s), 1.220656, digits(6))
	near(t, "median radius", MedianRadius(tenPoints, s.Mean), 1.276834, digits(6))
}

// standardDistance is the root mean square distance from the centre, divisor N.
func standardDistance(s PointScatter) float64 {
	return math.Sqrt((s.XX + s.YY) * float64(s.N-1) / float64(s.N))
}

// The example of numpy.cov.
func TestScatter_NumpyExample(t *testing.T) {
	s := ScatterOf([]Point{{-2.1, 3}, {-1, 1.1}, {4.3, .12}})
	near(t, "xx", s.XX, 11.71, digits(2))
	near(t, "xy", s.XY, -4.286, digits(3))
	near(t, "yy", s.YY, 2.144133, digits(6))
}

// Chi-square with two degrees of freedom, closed form; computed independently.
func TestSigmas(t *testing.T) {
	for share, want := range map[float64]float64{.5: 1.386294, .9: 4.605170, .95: 5.991465, .99: 9.210340} {
		sigmas := SigmasHolding(share)
		near(t, fmt.Sprintf("chi-square at %g", share), sigmas*sigmas, want, digits(6))
	}
	// The share within 1, 2 and 3 sigma, read the other way round.
	for i, share := range []float64{.393469, .864665, .988891} {
		near(t, fmt.Sprintf("sigmas that hold %g", share), SigmasHolding(share), float64(i+1), 1e-4)
	}
	for share, want := range map[float64]float64{0: 0, -1: 0, 1: math.Inf(1), 2: math.Inf(1)} {
		if got := SigmasHolding(share); got != want {
			t.Errorf("%g of the cloud lies within %g sigmas, want %g", share, got, want)
		}
	}
}

// Turning, moving and mirroring the cloud moves its summary along and leaves its
// size.
func TestScatter_MovesWithThePoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 30).Draw(t, "n")
		turn := rapid.Float64Range(-3, 3).Draw(t, "turn")
		shift := rapid.Float64Range(-100, 100).Draw(t, "shift")
		sin, cos := math.Sincos(turn)
		points, moved, mirrored := make([]Point, n), make([]Point, n), make([]Point, n)
		for i := range points {
			p := Point{rapid.Float64Range(-20, 20).Draw(t, "x"), rapid.Float64Range(-20, 20).Draw(t, "y")}
			points[i], mirrored[i] = p, Point{-p.X, p.Y}
			moved[i] = Point{p.X*cos - p.Y*sin + shift, p.X*sin + p.Y*cos - shift}
		}
		a, b, m := ScatterOf(points), ScatterOf(moved), ScatterOf(mirrored)
		near(t, "standard distance", standardDistance(b), standardDistance(a), 1e-8)
		near(t, "major", b.PrincipalAxes().Major, a.PrincipalAxes().Major, 1e-8)
		near(t, "minor²", math.Pow(b.PrincipalAxes().Minor, 2), math.Pow(a.PrincipalAxes().Minor, 2), 1e-8)
		near(t, "mirrored covariance", m.XY, -a.XY, 1e-8)
		if angle := a.PrincipalAxes().AngleRadians; !(angle > -math.Pi/2 && angle <= math.Pi/2) {
			t.Fatalf("angle %g", angle)
		}
	})
}

func TestScatter_FewOrBrokenPoints(t *testing.T) {
	if got := ScatterOf(nil); got != (PointScatter{}) {
		t.Errorf("no points: %+v", got)
	}
	one := ScatterOf([]Point{{3, 4}, {math.NaN(), 1}, {1, math.Inf(-1)}})
	if one != (PointScatter{N: 1, Mean: Point{3, 4}}) {
		t.Errorf("one usable point: %+v", one)
	}
	for _, v := range []float64{PointScatter{}.PrincipalAxes().Major, one.PrincipalAxes().Major, one.EllipseHolding(.9).Major, one.EllipseHolding(.9).Minor, MedianRadius(nil, Point{})} {
		near(t, "nothing spread", v, 0, 0)
	}
	near(t, "median of three", MedianRadius([]Point{{1, 0}, {0, 5}, {2, 0}}, Point{}), 2, 0)
}

func BenchmarkScatterOf(b *testing.B) {
	for b.Loop() {
		ScatterOf(tenPoints)
	}
}
