package evidence

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// NIST/SEMATECH e-Handbook 6.3.2.3.
func TestCUSUM_Handbook(t *testing.T) {
	c := CUSUM{Target: 325, K: .3175, H: 4.1959}
	values := []float64{324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600,
		324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350}
	run := c.Run(values)
	for i, want := range map[int]float64{5: .0325, 13: 3.0075, 14: 4.9400, 15: 7.4475, 16: 10.6300, 17: 11.9875, 18: 14.4450, 19: 16.0025, 20: 19.0350} {
		near(t, fmt.Sprintf("high at %d", i), run[i-1].High, want, 1e-9)
	}
	for i, want := range map[int]float64{2: .0075, 4: .3325, 7: .5575, 8: .7150, 9: .1725, 10: .2550, 11: .3125} {
		near(t, fmt.Sprintf("low at %d", i), run[i-1].Low, want, 1e-9)
	}
	if signal, ok := c.FirstSignal(values); !ok || signal != (Signal{At: 13, Since: 12, Up: true}) {
		t.Errorf("signal %+v %v, want up at the fourteenth, since the thirteenth", signal, ok)
	}
}

// Montgomery and Runger, Applied Statistics, Tables 16-7 and 16-8.
func TestCUSUM_NoAlarm(t *testing.T) {
	c := CUSUM{Target: 99, K: 1, H: 10}
	values := []float64{102.0, 94.8, 98.3, 98.4, 102.0, 98.5, 99.0, 97.7, 100.0, 98.1, 101.3, 98.7, 101.1, 98.4, 97.0, 96.7, 100.3, 101.4, 97.2, 101.0}
	high := []float64{2, 0, 0, 0, 2, .5, 0, 0, 0, 0, 1.3, 0, 1.1, 0, 0, 0, .3, 1.7, 0, 1.0}
	low := []float64{0, 3.2, 2.9, 2.5, 0, 0, 0, .3, 0, 0, 0, 0, 0, 0, 1.0, 2.3, 0, 0, .8, 0}
	for i, sums := range c.Run(values) {
		near(t, fmt.Sprintf("high at %d", i+1), sums.High, high[i], 1e-9)
		near(t, fmt.Sprintf("low at %d", i+1), sums.Low, low[i], 1e-9)
	}
	if signal, ok := c.FirstSignal(values); ok {
		t.Errorf("alarm %+v, want none", signal)
	}
}

// montgomery is Table 9.1 of Montgomery, Statistical Quality Control.
var montgomery = []float64{9.45, 7.99, 9.29, 11.66, 12.16, 10.18, 8.04, 11.46, 9.20, 10.34, 9.03, 11.47, 10.51, 9.40, 10.08,
	9.37, 10.62, 10.31, 8.52, 10.84, 10.90, 9.33, 12.29, 11.50, 10.60, 11.08, 10.38, 11.62, 11.31, 10.52}

// Montgomery, Table 9.2: alarm at 29, change placed after 22.
func TestCUSUM_Montgomery(t *testing.T) {
	c := CUSUM{Target: 10, K: .5, H: 5}
	run := c.Run(montgomery)
	for i, want := range map[int]float64{28: 4.47, 29: 5.28, 30: 5.30} {
		near(t, fmt.Sprintf("high at %d", i), run[i-1].High, want, 1e-9)
	}
	signal, ok := c.FirstSignal(montgomery)
	if !ok || signal != (Signal{At: 28, Since: 22, Up: true}) {
		t.Errorf("signal %+v %v, want up at index 28 since 22", signal, ok)
	}
	turned := make([]float64, len(montgomery))
	for i, x := range montgomery {
		turned[i] = 20 - x
	}
	if signal, ok := c.FirstSignal(turned); !ok || signal != (Signal{At: 28, Since: 22}) {
		t.Errorf("turned round: signal %+v %v, want down at index 28 since 22", signal, ok)
	}
}

// Montgomery and Runger, Table 16-9, to the digits computed independently from
// the same integral equation.
func TestCUSUM_RunLengths(t *testing.T) {
	shifts := []float64{0, .25, .5, .75, 1, 1.5, 2, 2.5, 3, 4}
	want := map[float64][]float64{
		4: {167.6838, 74.2240, 26.6302, 13.2851, 8.3831, 4.7472, 3.3428, 2.6195, 2.1945, 1.7085},
		5: {465.4435, 139.4937, 37.9961, 17.0483, 10.3760, 5.7472, 4.0089, 3.1137, 2.5733, 2.0126},
	}
	for h, lengths := range want {
		for i, shift := range shifts {
			near(t, fmt.Sprintf("h %g shift %g", h, shift), CUSUM{K: .5, H: h}.RunLength(shift, 1), lengths[i], digits(4))
		}
	}
	near(t, "upper side, h 4", CUSUM{K: .5, H: 4}.RunLengthHigh(0, 1), 335.3676, digits(4))
	near(t, "upper side, h 5", CUSUM{K: .5, H: 5}.RunLengthHigh(0, 1), 930.8870, digits(4))
	near(t, "in other units", CUSUM{Target: 3, K: 1, H: 8}.RunLength(1, 2), 26.6302, digits(4))
}

// With no room at all the chart speaks as soon as a value exceeds K: geometric.
func TestCUSUM_RunLengthEdges(t *testing.T) {
	near(t, "h 0", CUSUM{K: .5}.RunLengthHigh(0, 1), 1/(1-normalCDF(.5)), 1e-9)
	if got := (CUSUM{K: .5, H: 4}).RunLength(0, 0); !math.IsInf(got, 1) {
		t.Errorf("no noise, no shift: %g, want never", got)
	}
	near(t, "no noise, a shift", CUSUM{K: .5, H: 4}.RunLength(2, 0), 1, 0)
}

// Exact run lengths in sets of ten, computed independently.
func TestSlump_RunLengths(t *testing.T) {
	want := map[float64][3]float64{4: {100.02, 12.392, 4.354}, 5: {232.52, 17.306, 5.347}, 6: {534.50, 23.035, 6.353}}
	for limit, lengths := range want {
		for i, rate := range []float64{.55, .45, .35} {
			got := Slump{Reference: 4.5, Limit: limit}.RunLength(rate, 10)
			tol := digits(3)
			if i == 0 {
				tol = digits(2)
			}
			near(t, fmt.Sprintf("limit %g rate %g", limit, rate), got, lengths[i], tol)
		}
	}
}

func TestSlump_Next(t *testing.T) {
	s, sum := Slump{Reference: 4.5, Limit: 5}, 0.0
	for i, made := range []int{6, 3, 2, 7, 1, 1} {
		sum = s.Next(sum, made)
		near(t, fmt.Sprintf("sum after set %d", i+1), sum, []float64{0, 1.5, 4, 1.5, 5, 8.5}[i], 0)
		if s.Alarm(sum) != (i >= 4) {
			t.Errorf("alarm after set %d: %v", i+1, s.Alarm(sum))
		}
	}
}

func TestSlump_Edges(t *testing.T) {
	s := Slump{Reference: 4.5, Limit: 5}
	if got := s.RunLength(1, 10); !math.IsInf(got, 1) {
		t.Errorf("never a miss: %g, want never", got)
	}
	near(t, "never a make", s.RunLength(0, 10), 2, 1e-12)
	near(t, "no limit", Slump{Reference: 4.5}.RunLength(.5, 10), 1, 0)
	near(t, "a finer reference", Slump{Reference: 4.45, Limit: 4.45}.RunLength(0, 10), 1, 1e-12)
}

// A better player waits longer for a false alarm.
func TestSlump_LongerForTheBetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Slump{Reference: float64(rapid.IntRange(4, 12).Draw(t, "halves")) / 2, Limit: float64(rapid.IntRange(1, 12).Draw(t, "limit")) / 2}
		rate := rapid.Float64Range(.05, .7).Draw(t, "rate")
		worse, better := s.RunLength(rate, 10), s.RunLength(rate+.05, 10)
		if !(worse >= 1 && better >= worse*(1-1e-3)) {
			t.Fatalf("%+v: %g sets at %g, %g at .05 more", s, worse, rate, better)
		}
	})
}

func BenchmarkSlump_RunLength(b *testing.B) {
	for b.Loop() {
		Slump{Reference: 4.5, Limit: 5}.RunLength(.45, 10)
	}
}
