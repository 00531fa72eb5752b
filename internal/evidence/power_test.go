package evidence

import (
	"fmt"
	"math"
	"testing"
)

var (
	oneSided = Contrast{P1: .35, P2: .55, Alpha: .05}
	twoSided = Contrast{P1: .35, P2: .55, Alpha: .05, TwoSided: true}
)

// R manual, power.prop.test: n = 76.7 for power .9, power .740 for n = 50.
func TestContrast_RManual(t *testing.T) {
	c := Contrast{P1: .5, P2: .75, Alpha: .05, TwoSided: true}
	near(t, "n", c.Needed(.9), 76.70693, digits(5))
	near(t, "power", c.Power(50), .740166, digits(6))
}

// Breaks in each group to tell .35 from .55 with power .8: closed forms, worked
// independently.
func TestContrast_ThirtyFiveFromFiftyFive(t *testing.T) {
	cases := []struct {
		name     string
		needed   func(Contrast, float64) float64
		one, two float64
	}{
		{"pooled", Contrast.Needed, 75.456, 95.942}, {"Fleiss", Contrast.NeededCorrected, 85.162, 105.706},
		{"unpooled", Contrast.NeededUnpooled, 73.418, 93.205}, {"arcsine", Contrast.NeededArcsine, 75.438, 95.770},
		{"one sample", Contrast.NeededOneSample, 36.195, 45.802},
	}
	for _, c := range cases {
		near(t, c.name+", one-sided", c.needed(oneSided, .8), c.one, digits(3))
		near(t, c.name+", two-sided", c.needed(twoSided, .8), c.two, digits(3))
	}
	near(t, "there and back", oneSided.Power(oneSided.Needed(.8)), .8, 1e-12)
}

// NIST/SEMATECH e-Handbook 7.2.4.2.
func TestContrast_HandbookOneSample(t *testing.T) {
	c := Contrast{P1: .10, P2: .20, Alpha: .05}
	n := c.NeededOneSample(.9)
	near(t, "n", n, 101.219, digits(3))
	near(t, "corrected", n+1/(c.P2-c.P1), 111.219, digits(3))
}

func TestContrast_NoDifference(t *testing.T) {
	c := Contrast{P1: .4, P2: .4, Alpha: .05}
	for name, n := range map[string]float64{"pooled": c.Needed(.8), "Fleiss": c.NeededCorrected(.8), "unpooled": c.NeededUnpooled(.8),
		"arcsine": c.NeededArcsine(.8), "one sample": c.NeededOneSample(.8), "no alpha": Contrast{P1: .4, P2: .5}.Needed(.8)} {
		if !math.IsInf(n, 1) {
			t.Errorf("%s: %g breaks, want never", name, n)
		}
	}
	near(t, "power", c.Power(100), .05, 1e-12)
	near(t, "no breaks", oneSided.Power(0), .05, 0)
}

// Computed independently by full enumeration: the first n from which the power stays
// at .8 or more for six in a row.
func TestExactPower_FisherNeeds(t *testing.T) {
	oneSided := func(a, b Count) bool { return Fisher(a, b).Less <= .05 }
	twoSided := func(a, b Count) bool { return Fisher(a, b).TwoSided <= .05 }
	better := func(a, b Count) bool {
		return better([2]int{a.Made, a.Tried}, [2]int{b.Made, b.Tried}, Uniform()) >= .95
	}
	for _, c := range []struct {
		name  string
		found func(a, b Count) bool
		want  int
	}{{"Fisher one-sided", oneSided, 85}, {"Fisher two-sided", twoSided, 108}, {"P(better) >= .95", better, 78}} {
		if before := ExactPower(.35, .55, c.want-1, c.found); before >= .8 {
			t.Errorf("%s: power %g with one break fewer than %d", c.name, before, c.want)
		}
		for n := c.want; n < c.want+6; n++ {
			if power := ExactPower(.35, .55, n, c.found); power < .8 {
				t.Errorf("%s: power %g with %d", c.name, power, n)
			}
		}
	}
}

// Computed independently by full enumeration: chance to find .35 -> .55, and false
// alarm at .45, when P(better) must reach a threshold.
func TestExactPower_OfTheBetterRule(t *testing.T) {
	cases := []struct {
		threshold           float64
		detection, alarming []float64
	}{
		{.95, []float64{.2498, .3192, .4525, .5495, .7053, .8909}, []float64{.0572, .0404, .0459, .0459, .0471, .0510}},
		{.80, []float64{.5960, .6894, .7477, .8490, .9193, .9817}, []float64{.2506, .2136, .1820, .2158, .2045, .2172}},
	}
	for _, c := range cases {
		rule := func(a, b Count) bool {
			return better([2]int{a.Made, a.Tried}, [2]int{b.Made, b.Tried}, Uniform()) >= c.threshold
		}
		for i, n := range []int{10, 20, 30, 40, 60, 100} {
			near(t, fmt.Sprintf("detection at %g with %d", c.threshold, n), ExactPower(.35, .55, n, rule), c.detection[i], digits(4))
			near(t, fmt.Sprintf("false alarm at %g with %d", c.threshold, n), ExactPower(.45, .45, n, rule), c.alarming[i], digits(4))
		}
	}
}

// Computed independently.
func TestUpset(t *testing.T) {
	for _, c := range []struct{ worse, better, fewer, tie float64 }{
		{.45, .50, .3264, .1721}, {.45, .55, .2493, .1593}, {.35, .55, .1262, .1173},
	} {
		fewer, tie := Upset(c.worse, c.better, 10)
		near(t, fmt.Sprintf("%g behind %g", c.better, c.worse), fewer, c.fewer, digits(4))
		near(t, "tie", tie, c.tie, digits(4))
	}
	fewer, tie := Upset(.4, .4, 10)
	near(t, "equals", 2*fewer+tie, 1, 1e-12)
}
