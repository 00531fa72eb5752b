package evidence

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// method is one of the four interval functions.
type method func(made, tried int, level float64) Interval

var methods = map[string]method{
	"Wilson": Wilson, "Jeffreys": Jeffreys, "ClopperPearson": ClopperPearson, "AgrestiCoull": AgrestiCoull,
}

// Computed independently by three statistics libraries, 95 %; ends at 0 and 1
// by the convention of Brown, Cai and DasGupta (2001), Statist. Sci. 16:101.
func TestInterval_EveryCountOfTen(t *testing.T) {
	want := []struct{ wilson, exact, jeffreys, agresti Interval }{
		{Interval{0, .277533}, Interval{0, .308497}, Interval{0, .217196}, Interval{0, .320887}},
		{Interval{.017876, .404150}, Interval{.002529, .445016}, Interval{.011012, .381315}, Interval{0, .425968}},
		{Interval{.056682, .509838}, Interval{.025211, .556095}, Interval{.044059, .502774}, Interval{.045887, .520632}},
		{Interval{.107791, .603222}, Interval{.066740, .652453}, Interval{.092695, .605818}, Interval{.103338, .607675}},
		{Interval{.168180, .687326}, Interval{.121552, .737622}, Interval{.153067, .696321}, Interval{.167111, .688396}},
		{Interval{.236593, .763407}, Interval{.187086, .812914}, Interval{.223529, .776471}, Interval{.236593, .763407}},
		{Interval{.312674, .831820}, Interval{.262378, .878448}, Interval{.303679, .846933}, Interval{.311604, .832889}},
		{Interval{.396778, .892209}, Interval{.347547, .933260}, Interval{.394182, .907305}, Interval{.392325, .896662}},
		{Interval{.490162, .943318}, Interval{.443905, .974789}, Interval{.497226, .955941}, Interval{.479368, .954113}},
		{Interval{.595850, .982124}, Interval{.554984, .997471}, Interval{.618685, .988988}, Interval{.574032, 1}},
		{Interval{.722467, 1}, Interval{.691503, 1}, Interval{.782804, 1}, Interval{.679113, 1}},
	}
	for k, row := range want {
		same(t, fmt.Sprintf("Wilson %d/10", k), Wilson(k, 10, .95), row.wilson, digits(6))
		same(t, fmt.Sprintf("Clopper-Pearson %d/10", k), ClopperPearson(k, 10, .95), row.exact, digits(6))
		same(t, fmt.Sprintf("Jeffreys %d/10", k), Jeffreys(k, 10, .95), row.jeffreys, digits(6))
		same(t, fmt.Sprintf("Agresti-Coull %d/10", k), AgrestiCoull(k, 10, .95), row.agresti, digits(6))
	}
}

func TestInterval_PublishedValues(t *testing.T) {
	cases := []struct {
		source      string
		method      string
		made, tried int
		level       float64
		want        Interval
		tol         float64
	}{
		{"R binom.confint", "Wilson", 4, 20, .95, Interval{.0806577, .4160174}, digits(7)},
		{"R binom.confint", "ClopperPearson", 4, 20, .95, Interval{.0573340, .4366140}, digits(7)},
		{"R binom.confint", "Jeffreys", 4, 20, .95, Interval{.0715201, .4082258}, digits(7)},
		{"R binom.confint", "AgrestiCoull", 4, 20, .95, Interval{.0749115, .4217636}, digits(7)},
		{"R binom.confint", "Wilson", 18, 20, .95, Interval{.6989664, .9721335}, digits(7)},
		{"R binom.confint", "ClopperPearson", 18, 20, .95, Interval{.6830173, .9876515}, digits(7)},
		{"R binom.confint", "AgrestiCoull", 18, 20, .95, Interval{.6867561, .9843438}, digits(7)},
		{"R 3.6.2 binom.test", "ClopperPearson", 20, 100, .95, Interval{.1266555521, .2918426891}, digits(10)},
		{"R binom.test example (Mendel)", "ClopperPearson", 682, 925, .95, Interval{.7076683, .7654066}, digits(7)},
		{"NIST/SEMATECH e-Handbook 7.2.4.1", "ClopperPearson", 4, 20, .90, Interval{.071354, .401028}, 2e-6},
		{"Newcombe 1998, Stat. Med. 17:857", "Wilson", 81, 263, .95, Interval{.2553, .3662}, digits(4)},
		{"Newcombe 1998", "Wilson", 15, 148, .95, Interval{.0624, .1605}, digits(4)},
		{"Newcombe 1998", "Wilson", 0, 20, .95, Interval{0, .1611}, digits(4)},
		{"Newcombe 1998", "Wilson", 1, 29, .95, Interval{.0061, .1718}, digits(4)},
		{"Newcombe 1998", "ClopperPearson", 81, 263, .95, Interval{.2527, .3676}, digits(4)},
		{"Newcombe 1998", "ClopperPearson", 15, 148, .95, Interval{.0578, .1617}, digits(4)},
		{"Newcombe 1998", "ClopperPearson", 0, 20, .95, Interval{0, .1684}, digits(4)},
		{"Newcombe 1998", "ClopperPearson", 1, 29, .95, Interval{.0009, .1776}, digits(4)},
	}
	for _, c := range cases {
		what := fmt.Sprintf("%s %d/%d (%s)", c.method, c.made, c.tried, c.source)
		same(t, what, methods[c.method](c.made, c.tried, c.level), c.want, c.tol)
	}
}

// Computed independently as an exact sum: the share of true rates covered.
func TestInterval_TrueCoverage(t *testing.T) {
	want := map[string][2]float64{
		"Wilson": {.9494, .9605}, "ClopperPearson": {.9722, .9817}, "Jeffreys": {.9494, .9605}, "AgrestiCoull": {.9494, .9605},
	}
	for name, values := range want {
		for i, rate := range []float64{.45, .35} {
			covered := 0.0
			for k := 0; k <= 10; k++ {
				if methods[name](k, 10, .95).Contains(rate) {
					covered += math.Exp(logChoose(10, k)) * math.Pow(rate, float64(k)) * math.Pow(1-rate, float64(10-k))
				}
			}
			near(t, fmt.Sprintf("coverage of %s at %g", name, rate), covered, values[i], digits(4))
		}
	}
}

func TestInterval_NothingKnown(t *testing.T) {
	for name, interval := range methods {
		for _, c := range []struct {
			made, tried int
			level       float64
		}{{0, 0, .95}, {-1, 10, .95}, {11, 10, .95}, {0, -5, .95}, {3, 10, 0}, {3, 10, 1}, {3, 10, math.NaN()}, {3, 10, -2}} {
			if got := interval(c.made, c.tried, c.level); got != (Interval{0, 1}) {
				t.Errorf("%s(%d, %d, %g) = %v, want everything", name, c.made, c.tried, c.level, got)
			}
		}
	}
}

// The estimate is inside, a higher level contains a lower one, and misses give
// the mirror image of makes.
func TestInterval_Properties(t *testing.T) {
	for name, interval := range methods {
		t.Run(name, rapid.MakeCheck(func(t *rapid.T) {
			made, tried := drawCount(t, 2000, "count")
			level := rapid.Float64Range(.5, .99).Draw(t, "level")
			narrow, wide := interval(made, tried, level), interval(made, tried, level+.005)
			if tried > 0 && !narrow.Contains(float64(made)/float64(tried)) {
				t.Fatalf("%v does not contain %d/%d", narrow, made, tried)
			}
			if wide.Low > narrow.Low || wide.High < narrow.High {
				t.Fatalf("%v at the higher level does not contain %v", wide, narrow)
			}
			same(t, "mirror", interval(tried-made, tried, level), narrow.Mirror(), 1e-10)
			if !(0 <= narrow.Low && narrow.Low <= narrow.High && narrow.High <= 1) {
				t.Fatalf("%v is not within 0..1", narrow)
			}
		}))
	}
}

// Clopper-Pearson ends are where the exact binomial tail is half the error.
func TestClopperPearson_TailsAreExact(t *testing.T) {
	for _, c := range [][2]int{{1, 10}, {3, 10}, {9, 10}, {14, 40}, {60, 100}} {
		got := ClopperPearson(c[0], c[1], .95)
		near(t, fmt.Sprintf("upper tail at the low end of %v", c), binomialTail(c[0], c[1], got.Low), .025, 1e-10)
		near(t, fmt.Sprintf("lower tail at the high end of %v", c), 1-binomialTail(c[0]+1, c[1], got.High), .025, 1e-10)
	}
}

// binomialTail adds up P(at least made of tried) term by term.
func binomialTail(made, tried int, rate float64) float64 {
	sum := 0.0
	for k := made; k <= tried; k++ {
		sum += math.Exp(logChoose(tried, k) + float64(k)*math.Log(rate) + float64(tried-k)*math.Log1p(-rate))
	}
	return sum
}

func same(t rapid.TB, what string, got, want Interval, tol float64) {
	t.Helper()
	near(t, what+" low", got.Low, want.Low, tol)
	near(t, what+" high", got.High, want.High, tol)
}

func BenchmarkWilson(b *testing.B) {
	for b.Loop() {
		Wilson(3, 10, .9)
	}
}

func BenchmarkJeffreys(b *testing.B) {
	for b.Loop() {
		Jeffreys(3, 10, .9)
	}
}
