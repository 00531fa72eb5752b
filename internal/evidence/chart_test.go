package evidence

import (
	"fmt"
	"slices"
	"testing"
)

// Montgomery, Table 9.10: lambda .1, L 2.7, first alarm at 29.
func TestEWMA_Montgomery(t *testing.T) {
	e := EWMA{Target: 10, Sigma: 1, Lambda: .1, Width: 2.7}
	run := e.Run(montgomery)
	for i, want := range map[int]float64{1: 9.9450, 2: 9.7495, 3: 9.7036, 4: 9.8992, 5: 10.1253, 28: 10.5731, 29: 10.6468, 30: 10.6341} {
		near(t, fmt.Sprintf("average at %d", i), run[i-1], want, 1e-4)
	}
	near(t, "limit at 1", e.LimitsAfter(1).High, 10.27, 1e-4)
	near(t, "limit at 29", e.LimitsAfter(29).High, 10.6187, 1e-4)
	near(t, "lower limit at 29", e.LimitsAfter(29).Low, 20-10.6187, 1e-4)
	for i, z := range run[:29] {
		if alarm := e.LimitsAfter(i + 1).Outside(z); alarm != (i+1 == 29) {
			t.Errorf("alarm at %d: %v, want the first at 29", i+1, alarm)
		}
	}
}

// NIST/SEMATECH e-Handbook 6.3.2.4: lambda .3, s 2.0539, three sigma, no alarm.
func TestEWMA_Handbook(t *testing.T) {
	e := EWMA{Target: 50, Sigma: 2.0539, Lambda: .3, Width: 3}
	values := []float64{52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1}
	want := []float64{50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99}
	limits := e.LimitsInTheEnd()
	near(t, "upper limit", limits.High, 52.5884, 1e-4)
	near(t, "lower limit", limits.Low, 47.4115, 1e-4)
	for i, z := range e.Run(values) {
		near(t, fmt.Sprintf("average at %d", i+1), z, want[i], digits(2))
		if limits.Outside(z) {
			t.Errorf("alarm at %d", i+1)
		}
	}
}

// NIST/SEMATECH e-Handbook 6.3.3.2, which follows Montgomery.
func TestProportionLimits_Handbook(t *testing.T) {
	counts := []int{12, 15, 8, 10, 4, 7, 16, 9, 14, 10, 5, 6, 17, 12, 22, 8, 10, 5, 13, 11, 20, 18, 24, 15, 9, 12, 7, 13, 9, 6}
	sum := 0
	for _, k := range counts {
		sum += k
	}
	mean := float64(sum) / float64(50*len(counts))
	near(t, "mean", mean, 347.0/1500, 1e-12)
	limits := ProportionLimits(mean, 50)
	near(t, "low", limits.Low, .052428, digits(6))
	near(t, "high", limits.High, .410239, digits(6))
	var outside []int
	for i, k := range counts {
		if limits.Outside(float64(k) / 50) {
			outside = append(outside, i+1)
		}
	}
	if !slices.Equal(outside, []int{15, 23}) {
		t.Errorf("outside: %v, want 15 and 23", outside)
	}
}

// The formula worked by hand: with tens no bad set can signal.
func TestProportionLimits_SmallSets(t *testing.T) {
	want := map[int]Limits{10: {-.021964, .921964}, 20: {.116271, .783729}, 30: {.177511, .722489}}
	for size, limits := range want {
		got := ProportionLimits(.45, size)
		near(t, fmt.Sprintf("low for %d", size), got.Low, limits.Low, digits(6))
		near(t, fmt.Sprintf("high for %d", size), got.High, limits.High, digits(6))
	}
	for made := 0; made <= 10; made++ {
		if ProportionLimits(.45, 10).Outside(float64(made)/10) != (made == 10) {
			t.Errorf("%d of ten: only ten of ten should signal", made)
		}
	}
	if ProportionLimits(.45, 0).Outside(1) {
		t.Error("a set of nothing signals")
	}
}
