package evidence

import (
	"fmt"
	"testing"
)

// runSums returns the sums after each value, and the index of the first value at
// which a sum is above H, -1 for none.
func runSums(c CUSUM, values []float64) (run []CUSUMSums, alarm int) {
	alarm, sums := -1, CUSUMSums{}
	for i, value := range values {
		sums = c.NextSums(sums, value)
		run = append(run, sums)
		if alarm < 0 && max(sums.High, sums.Low) > c.H {
			alarm = i
		}
	}
	return run, alarm
}

// NIST/SEMATECH e-Handbook 6.3.2.3.
func TestCUSUM_Handbook(t *testing.T) {
	c := CUSUM{Target: 325, K: .3175, H: 4.1959}
	values := []float64{324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600,
		324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350}
	run, alarm := runSums(c, values)
	for i, want := range map[int]float64{5: .0325, 13: 3.0075, 14: 4.9400, 15: 7.4475, 16: 10.6300, 17: 11.9875, 18: 14.4450, 19: 16.0025, 20: 19.0350} {
		near(t, fmt.Sprintf("high at %d", i), run[i-1].High, want, 1e-9)
	}
	for i, want := range map[int]float64{2: .0075, 4: .3325, 7: .5575, 8: .7150, 9: .1725, 10: .2550, 11: .3125} {
		near(t, fmt.Sprintf("low at %d", i), run[i-1].Low, want, 1e-9)
	}
	if alarm != 13 {
		t.Errorf("alarm at index %d, want the fourteenth value", alarm)
	}
}

// Montgomery and Runger, Applied Statistics, Tables 16-7 and 16-8.
func TestCUSUM_NoAlarm(t *testing.T) {
	c := CUSUM{Target: 99, K: 1, H: 10}
	values := []float64{102.0, 94.8, 98.3, 98.4, 102.0, 98.5, 99.0, 97.7, 100.0, 98.1, 101.3, 98.7, 101.1, 98.4, 97.0, 96.7, 100.3, 101.4, 97.2, 101.0}
	high := []float64{2, 0, 0, 0, 2, .5, 0, 0, 0, 0, 1.3, 0, 1.1, 0, 0, 0, .3, 1.7, 0, 1.0}
	low := []float64{0, 3.2, 2.9, 2.5, 0, 0, 0, .3, 0, 0, 0, 0, 0, 0, 1.0, 2.3, 0, 0, .8, 0}
	run, alarm := runSums(c, values)
	for i, sums := range run {
		near(t, fmt.Sprintf("high at %d", i+1), sums.High, high[i], 1e-9)
		near(t, fmt.Sprintf("low at %d", i+1), sums.Low, low[i], 1e-9)
	}
	if alarm >= 0 {
		t.Errorf("alarm at index %d, want none", alarm)
	}
}

// montgomery is Table 9.1 of Montgomery, Statistical Quality Control.
var montgomery = []float64{9.45, 7.99, 9.29, 11.66, 12.16, 10.18, 8.04, 11.46, 9.20, 10.34, 9.03, 11.47, 10.51, 9.40, 10.08,
	9.37, 10.62, 10.31, 8.52, 10.84, 10.90, 9.33, 12.29, 11.50, 10.60, 11.08, 10.38, 11.62, 11.31, 10.52}

// Montgomery, Table 9.2: alarm at 29.
func TestCUSUM_Montgomery(t *testing.T) {
	c := CUSUM{Target: 10, K: .5, H: 5}
	run, alarm := runSums(c, montgomery)
	for i, want := range map[int]float64{28: 4.47, 29: 5.28, 30: 5.30} {
		near(t, fmt.Sprintf("high at %d", i), run[i-1].High, want, 1e-9)
	}
	if alarm != 28 {
		t.Errorf("alarm at index %d, want 28", alarm)
	}
	turned := make([]float64, len(montgomery))
	for i, x := range montgomery {
		turned[i] = 20 - x
	}
	turnedRun, alarm := runSums(c, turned)
	near(t, "low at 29, turned round", turnedRun[28].Low, 5.28, 1e-9)
	if alarm != 28 {
		t.Errorf("turned round: alarm at index %d, want 28", alarm)
	}
}
