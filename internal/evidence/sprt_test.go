package evidence

import (
	"fmt"
	"math"
	"testing"
)

func newSPRT(t *testing.T, low, high, alpha, beta float64) SPRT {
	t.Helper()
	s, err := NewSPRT(low, high, alpha, beta)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestSPRT_Lines(t *testing.T) {
	cases := []struct {
		source                 string
		low, high, alpha, beta float64
		want                   Lines
		tol                    float64
	}{
		{"NIST/SEMATECH e-Handbook 6.2.6", .01, .10, .05, .10, Lines{.039747, 1.205379, .938862}, digits(6)},
		{"published table of sampling plans", .005, .01, .05, .10, Lines{.007216, 4.1398, 3.2245}, digits(4)},
		{"computed independently, in the manner of Wald 1947", .1, .3, .02, .03, Lines{.186169, 2.875388, 2.582626}, 1e-6},
		{"formula, computed independently", .35, .55, .05, .20, Lines{.448604, 3.382402, 1.900849}, digits(6)},
	}
	for _, c := range cases {
		got := newSPRT(t, c.low, c.high, c.alpha, c.beta).Lines()
		near(t, c.source+": slope", got.Slope, c.want.Slope, digits(6))
		near(t, c.source+": high", got.HighAt, c.want.HighAt, c.tol)
		near(t, c.source+": low", got.LowAt, c.want.LowAt, c.tol)
	}
}

// NIST/SEMATECH e-Handbook 6.2.6: the first rows of the plan.
func TestSPRT_HandbookNumbers(t *testing.T) {
	s := newSPRT(t, .01, .10, .05, .10)
	near(t, "log10 k", (s.perMake-s.perMiss)/math.Ln10, 1.041393, digits(6))
	lines := s.Lines()
	for n, want := range map[int]int{2: 2, 19: 2, 24: 3} {
		if got := lines.HighNumber(n); got != want {
			t.Errorf("rejection number at %d = %d, want %d", n, got, want)
		}
	}
	if lines.LowNumber(23) != -1 || lines.LowNumber(24) != 0 {
		t.Errorf("acceptance numbers at 23 and 24: %d %d, want -1 and 0", lines.LowNumber(23), lines.LowNumber(24))
	}
}

// Formula, computed independently.
func TestSPRT_Scores(t *testing.T) {
	s := newSPRT(t, .35, .55, .05, .20)
	stopLow, stopHigh := s.Bounds()
	near(t, "a make", s.Score(Count{1, 1}), .451985, digits(6))
	near(t, "a miss", s.Score(Count{0, 1}), -.367725, digits(6))
	near(t, "high bound", stopHigh, 2.772589, digits(6))
	near(t, "low bound", stopLow, -1.558145, digits(6))
	ifLow, ifHigh := s.MeanBreaks()
	near(t, "Wald's mean if low", ifLow, 16.599, digits(3))
	near(t, "Wald's mean if high", ifHigh, 22.937, digits(3))
}

// The lines and the score are two ways to say the same.
func TestSPRT_JudgeAgreesWithLines(t *testing.T) {
	s := newSPRT(t, .35, .55, .05, .20)
	lines := s.Lines()
	for n := 1; n <= 100; n++ {
		for made := 0; made <= n; made++ {
			want := Unsure
			if made >= lines.HighNumber(n) {
				want = Above
			} else if made <= lines.LowNumber(n) {
				want = Below
			}
			if got := s.Judge(Count{made, n}); got != want {
				t.Fatalf("%d/%d: %v by score, %v by lines", made, n, got, want)
			}
		}
	}
	if s.Judge(Count{}) != Unsure || s.Judge(Count{5, 3}) != Unsure || s.Score(Count{5, 3}) != 0 {
		t.Error("no breaks, or an impossible count, should say nothing")
	}
}

// Exact recursion, computed independently.
func TestSPRT_Course(t *testing.T) {
	s := newSPRT(t, .35, .55, .05, .20)
	cases := []struct {
		name        string
		every, most int
		high, mean  [2]float64
	}{
		{"after every break", 1, 1500, [2]float64{.042642, .829428}, [2]float64{18.927, 26.175}},
		{"after every ten", 10, 1500, [2]float64{.028586, .891265}, [2]float64{27.464, 36.581}},
	}
	for _, c := range cases {
		for i, rate := range []float64{.35, .55} {
			got := s.Course(rate, c.every, c.most)
			what := fmt.Sprintf("%s at %g", c.name, rate)
			near(t, what+": high", got.High, c.high[i], digits(6))
			near(t, what+": mean breaks", got.MeanBreaks, c.mean[i], digits(3))
			near(t, what+": sum", got.High+got.Low+got.Unsure, 1, 1e-12)
			near(t, what+": unsure", got.Unsure, 0, 1e-9)
		}
	}
	for i, rate := range []float64{.35, .55} {
		got := s.Course(rate, 10, 60)
		near(t, fmt.Sprintf("cut off at 60, %g: high", rate), got.High, []float64{.025441, .784223}[i], digits(6))
		near(t, fmt.Sprintf("cut off at 60, %g: unsure", rate), got.Unsure, []float64{.0519, .1113}[i], digits(4))
	}
	if got := s.Course(.5, 0, 0); got != (Course{Unsure: 1}) {
		t.Errorf("no breaks at all: %+v", got)
	}
}

func TestNewSPRT_Refuses(t *testing.T) {
	for _, c := range [][4]float64{{.5, .4, .1, .1}, {0, .4, .1, .1}, {.3, 1, .1, .1}, {.3, .5, 0, .1}, {.3, .5, .5, .5}, {math.NaN(), .5, .1, .1}} {
		if _, err := NewSPRT(c[0], c[1], c[2], c[3]); err == nil {
			t.Errorf("NewSPRT(%v): no error", c)
		}
	}
}

// Exact, computed independently: pooled sets of ten after a baseline, up to six
// looks. False alarm with both at .45, detection from .35 to .55.
func TestLooks_Alarm(t *testing.T) {
	cases := []struct {
		baseline         int
		certainty        float64
		alarm, detection [3]float64 // after 1, 3 and 6 looks
	}{
		{10, .80, [3]float64{.2506, .3118, .3366}, [3]float64{.5960, .7102, .7563}},
		{10, .95, [3]float64{.0572, .0812, .0941}, [3]float64{.2498, .3596, .4212}},
		{20, .90, [3]float64{.0875, .1437, .1718}, [3]float64{.3871, .5996, .6975}},
		{20, .95, [3]float64{.0465, .0806, .1005}, [3]float64{.2609, .4624, .5723}},
		{20, .975, [3]float64{.0268, .0427, .0550}, [3]float64{.1886, .3318, .4357}},
		{30, .95, [3]float64{.0485, .0865, .1083}, [3]float64{.3037, .5356, .6567}},
		{60, .95, [3]float64{.0466, .0937, .1206}, [3]float64{.3284, .6425, .7932}},
	}
	for _, c := range cases {
		looks := Looks{Baseline: c.baseline, SetSize: 10, Looks: 6, Certainty: c.certainty}
		alarm, detection := looks.Alarm(.45, .45), looks.Alarm(.35, .55)
		for i, look := range []int{1, 3, 6} {
			what := fmt.Sprintf("baseline %d, %g, look %d", c.baseline, c.certainty, look)
			near(t, what+": false alarm", alarm[look-1], c.alarm[i], digits(4))
			near(t, what+": detection", detection[look-1], c.detection[i], digits(4))
		}
	}
}

func TestLooks_Edges(t *testing.T) {
	if got := (Looks{Baseline: 10, SetSize: 10}).Alarm(.4, .4); len(got) != 0 {
		t.Errorf("no looks: %v", got)
	}
	near(t, "no breaks", Looks{Looks: 1, Certainty: .9}.Alarm(.4, .4)[0], 0, 0)
	near(t, "certain of anything", Looks{Baseline: 10, SetSize: 10, Looks: 2}.Alarm(.4, .4)[1], 1, 1e-12)
}

func BenchmarkLooks_Alarm(b *testing.B) {
	for b.Loop() {
		Looks{Baseline: 20, SetSize: 10, Looks: 6, Certainty: .95}.Alarm(.45, .45)
	}
}
