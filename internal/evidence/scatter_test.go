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
	near(t, "r", s.Correlation(), 3.25/math.Sqrt(7.5*7.4), 1e-12) // by hand from the sums of squares
	axes, ellipse := s.Axes(), s.Ellipse(.95)
	near(t, "first eigenvalue", axes.Major*axes.Major, 1.188932, digits(6))
	near(t, "second eigenvalue", axes.Minor*axes.Minor, .466624, digits(6))
	near(t, "angle", axes.AngleRadians*180/math.Pi, 44.5593, digits(4))
	near(t, "major", ellipse.Major, 2.668978, digits(6))
	near(t, "minor", ellipse.Minor, 1.672053, digits(6))
	near(t, "area", ellipse.Area(), 14.019897, digits(6))
	near(t, "standard distance", s.StandardDistance(), 1.220656, digits(6))
	near(t, "median radius", MedianRadius(tenPoints, s.Mean), 1.276834, digits(6))
	if got := CountInside(tenPoints, ellipse.Contains); got != 10 {
		t.Errorf("%d of ten inside the 95 %% ellipse, want all", got)
	}
}

// The example of numpy.cov.
func TestScatter_NumpyExample(t *testing.T) {
	s := ScatterOf([]Point{{-2.1, 3}, {-1, 1.1}, {4.3, .12}})
	near(t, "xx", s.XX, 11.71, digits(2))
	near(t, "xy", s.XY, -4.286, digits(3))
	near(t, "yy", s.YY, 2.144133, digits(6))
}

func TestOffset_PublishedValues(t *testing.T) {
	cases := []struct {
		source        string
		points        []Point
		target        Point
		t2, f, p, tol float64
	}{
		{"computed independently", tenPoints, Point{}, 12.417246, 5.518776, .031183, digits(6)},
		{"Johnson-Wichern Example 5.1", []Point{{6, 9}, {10, 6}, {8, 3}}, Point{9, 5}, 7.0 / 9, .194444, math.Pow(1+2*.19444444444, -.5), digits(6)},
		{"Johnson-Wichern Exercise 5.1", []Point{{2, 12}, {8, 9}, {6, 9}, {8, 10}}, Point{7, 11}, 13.636364, 4.545455, .180328, digits(6)},
	}
	for _, c := range cases {
		got := ScatterOf(c.points).OffsetFrom(c.target)
		near(t, c.source+": T2", got.T2, c.t2, c.tol)
		near(t, c.source+": F", got.F, c.f, c.tol)
		near(t, c.source+": p", got.P, c.p, c.tol)
	}
	near(t, "5 % critical T2 of ten, computed independently", CriticalT2(10, .05), 10.032683, digits(6))
}

func TestOffset_NothingToSay(t *testing.T) {
	for _, points := range [][]Point{nil, {{1, 1}}, {{1, 1}, {2, 5}}, {{1, 1}, {2, 2}, {3, 3}, {4, 4}}, {{1, 1}, {1, 1}, {1, 1}}} {
		if got := ScatterOf(points).OffsetFrom(Point{9, 0}); got != (Offset{P: 1}) {
			t.Errorf("%v: %+v, want no verdict", points, got)
		}
	}
	if !math.IsInf(CriticalT2(2, .05), 1) {
		t.Error("two points cannot reject anything")
	}
}

// Chi-square with two degrees of freedom, closed form; computed independently.
func TestSigmas(t *testing.T) {
	for share, want := range map[float64]float64{.5: 1.386294, .9: 4.605170, .95: 5.991465, .99: 9.210340} {
		sigmas := SigmasHolding(share)
		near(t, fmt.Sprintf("chi-square at %g", share), sigmas*sigmas, want, digits(6))
	}
	for i, want := range []float64{.393469, .864665, .988891} {
		near(t, fmt.Sprintf("share within %d sigma", i+1), ShareWithin(float64(i+1)), want, digits(6))
	}
}

// Computed independently; equal sigmas are closed form.
func TestCircleHolding(t *testing.T) {
	for share, want := range map[float64]float64{.5: 1.177410, .9: 2.145966, .95: 2.447747} {
		near(t, fmt.Sprintf("equal sigmas, %g", share), CircleHolding(share, 1, 1), want, digits(6))
	}
	cases := []struct{ s1, s2, want float64 }{{2, 1, 1.740835}, {3, 1, 2.304830}, {1, .5, .870417}, {.25, 1, .725434}}
	for _, c := range cases {
		near(t, fmt.Sprintf("sigmas %g, %g", c.s1, c.s2), CircleHolding(.5, c.s1, c.s2), c.want, digits(6))
	}
	// On a line half of all lie within 0.674490 sigma.
	near(t, "one sigma nought", CircleHolding(.5, 2, 0), 2*.674490, 2e-6)
	near(t, "one sigma next to nought", CircleHolding(.5, 2, 1e-4), 2*.674490, 1e-4)
	near(t, "no spread", CircleHolding(.5, 0, 0), 0, 0)
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
		near(t, "standard distance", b.StandardDistance(), a.StandardDistance(), 1e-8)
		near(t, "major", b.Axes().Major, a.Axes().Major, 1e-8)
		near(t, "minor²", math.Pow(b.Axes().Minor, 2), math.Pow(a.Axes().Minor, 2), 1e-8)
		near(t, "mirrored covariance", m.XY, -a.XY, 1e-8)
		if angle := a.Axes().AngleRadians; !(angle > -math.Pi/2 && angle <= math.Pi/2) {
			t.Fatalf("angle %g", angle)
		}
	})
}

func TestScatter_FewOrBrokenPoints(t *testing.T) {
	if got := ScatterOf(nil); got != (Scatter{}) {
		t.Errorf("no points: %+v", got)
	}
	one := ScatterOf([]Point{{3, 4}, {math.NaN(), 1}, {1, math.Inf(-1)}})
	if one != (Scatter{N: 1, Mean: Point{3, 4}}) {
		t.Errorf("one usable point: %+v", one)
	}
	for _, v := range []float64{Scatter{}.StandardDistance(), one.Correlation(), one.Axes().Major, one.Ellipse(.9).Area(), MedianRadius(nil, Point{})} {
		near(t, "nothing spread", v, 0, 0)
	}
	if one.Ellipse(.9).Contains(Point{3, 4}) {
		t.Error("an ellipse without width contains nothing")
	}
	near(t, "median of three", MedianRadius([]Point{{1, 0}, {0, 5}, {2, 0}}, Point{}), 2, 0)
}

func BenchmarkScatterOf(b *testing.B) {
	for b.Loop() {
		ScatterOf(tenPoints).OffsetFrom(Point{})
	}
}
