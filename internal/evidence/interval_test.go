package evidence

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// method is one of the interval functions.
type method func(made, tried int, level float64) Interval

var methods = map[string]method{
	"Wilson": WilsonInterval, "Jeffreys": JeffreysInterval,
}

// Computed independently by three statistics libraries, 95 %; ends at 0 and 1
// by the convention of Brown, Cai and DasGupta (2001), Statist. Sci. 16:101.
func TestInterval_EveryCountOfTen(t *testing.T) {
	want := []struct{ wilson, jeffreys Interval }{
		{Interval{0, .277533}, Interval{0, .217196}},
		{Interval{.017876, .404150}, Interval{.011012, .381315}},
		{Interval{.056682, .509838}, Interval{.044059, .502774}},
		{Interval{.107791, .603222}, Interval{.092695, .605818}},
		{Interval{.168180, .687326}, Interval{.153067, .696321}},
		{Interval{.236593, .763407}, Interval{.223529, .776471}},
		{Interval{.312674, .831820}, Interval{.303679, .846933}},
		{Interval{.396778, .892209}, Interval{.394182, .907305}},
		{Interval{.490162, .943318}, Interval{.497226, .955941}},
		{Interval{.595850, .982124}, Interval{.618685, .988988}},
		{Interval{.722467, 1}, Interval{.782804, 1}},
	}
	for k, row := range want {
		same(t, fmt.Sprintf("Wilson %d/10", k), WilsonInterval(k, 10, .95), row.wilson, digits(6))
		same(t, fmt.Sprintf("Jeffreys %d/10", k), JeffreysInterval(k, 10, .95), row.jeffreys, digits(6))
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
		{"R binom.confint", "Jeffreys", 4, 20, .95, Interval{.0715201, .4082258}, digits(7)},
		{"R binom.confint", "Wilson", 18, 20, .95, Interval{.6989664, .9721335}, digits(7)},
		{"Newcombe 1998, Stat. Med. 17:857", "Wilson", 81, 263, .95, Interval{.2553, .3662}, digits(4)},
		{"Newcombe 1998", "Wilson", 15, 148, .95, Interval{.0624, .1605}, digits(4)},
		{"Newcombe 1998", "Wilson", 0, 20, .95, Interval{0, .1611}, digits(4)},
		{"Newcombe 1998", "Wilson", 1, 29, .95, Interval{.0061, .1718}, digits(4)},
	}
	for _, c := range cases {
		what := fmt.Sprintf("%s %d/%d (%s)", c.method, c.made, c.tried, c.source)
		same(t, what, methods[c.method](c.made, c.tried, c.level), c.want, c.tol)
	}
}

// Computed independently as an exact sum: the share of true rates covered.
func TestInterval_TrueCoverage(t *testing.T) {
	want := map[string][2]float64{
		"Wilson": {.9494, .9605}, "Jeffreys": {.9494, .9605},
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

func same(t rapid.TB, what string, got, want Interval, tol float64) {
	t.Helper()
	near(t, what+" low", got.Low, want.Low, tol)
	near(t, what+" high", got.High, want.High, tol)
}

func BenchmarkWilson(b *testing.B) {
	for b.Loop() {
		WilsonInterval(3, 10, .9)
	}
}

func BenchmarkJeffreys(b *testing.B) {
	for b.Loop() {
		JeffreysInterval(3, 10, .9)
	}
}
