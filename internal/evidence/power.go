package evidence

import "math"

// Contrast is a difference of two rates that somebody would like to see, and the
// errors they would put up with. It answers "how many breaks would that take".
type Contrast struct {
	// P1 and P2 are the two rates, between 0 and 1.
	P1, P2 float64
	// Alpha is the chance of a false alarm, such as 0.05.
	Alpha float64
	// TwoSided is true when a difference either way would count.
	TwoSided bool
}

// Power returns the chance of finding the difference with n breaks in each group,
// by the formula behind R's power.prop.test (pooled variance under no difference).
// No difference to find, or n below 1, gives Alpha for the one side looked at.
func (c Contrast) Power(n float64) float64 {
	null, real := c.deviations()
	if !(n > 0) || !(real > 0) {
		return c.tail()
	}
	return normalCDF((math.Sqrt(n)*math.Abs(c.P2-c.P1) - c.z()*null) / real)
}

// Needed returns the breaks needed in each group for a power, not rounded, by the
// same formula. It is infinite when there is no difference.
func (c Contrast) Needed(power float64) float64 {
	null, real := c.deviations()
	return c.breaks(c.z()*null+normalQuantile(power)*real, c.P2-c.P1)
}

// NeededCorrected is Needed with the continuity correction of Fleiss, Tytun and
// Ury (1980): closer to what Fisher's exact test takes.
func (c Contrast) NeededCorrected(power float64) float64 {
	n := c.Needed(power)
	if math.IsInf(n, 1) {
		return n
	}
	return n / 4 * math.Pow(1+math.Sqrt(1+4/(n*math.Abs(c.P2-c.P1))), 2)
}

// NeededUnpooled is Needed with the variance of the real rates in both places.
func (c Contrast) NeededUnpooled(power float64) float64 {
	_, real := c.deviations()
	return c.breaks((c.z()+normalQuantile(power))*real, c.P2-c.P1)
}

// NeededArcsine is Needed on the arcsine scale of Cohen (1988).
func (c Contrast) NeededArcsine(power float64) float64 {
	h := 2*math.Asin(math.Sqrt(c.P2)) - 2*math.Asin(math.Sqrt(c.P1))
	return 2 * c.breaks(c.z()+normalQuantile(power), h)
}

// NeededOneSample returns the breaks needed to tell P2 from a known rate P1
// (NIST/SEMATECH e-Handbook 7.2.4.2, without its correction 1/|P2-P1|).
func (c Contrast) NeededOneSample(power float64) float64 {
	null, real := math.Sqrt(c.P1*(1-c.P1)), math.Sqrt(c.P2*(1-c.P2))
	return c.breaks(c.z()*null+normalQuantile(power)*real, c.P2-c.P1)
}

// deviations returns √n times the standard error of the difference, without and
// with a real difference.
func (c Contrast) deviations() (null, real float64) {
	pooled := (c.P1 + c.P2) / 2
	return math.Sqrt(2 * pooled * (1 - pooled)), math.Sqrt(c.P1*(1-c.P1) + c.P2*(1-c.P2))
}

// breaks returns (reach/difference)², infinite where that says nothing.
func (c Contrast) breaks(reach, difference float64) float64 {
	n := math.Pow(max(reach, 0)/difference, 2)
	if math.IsNaN(n) || !(c.Alpha > 0 && c.Alpha < 1) {
		return math.Inf(1)
	}
	return n
}

// tail is the share of Alpha on the side looked at.
func (c Contrast) tail() float64 {
	if c.TwoSided {
		return c.Alpha / 2
	}
	return c.Alpha
}

func (c Contrast) z() float64 {
	return normalQuantile(1 - c.tail())
}

// ExactPower returns the chance that found is true when two groups of n breaks
// each have the rates p1 and p2, by going through every pair of outcomes.
func ExactPower(p1, p2 float64, n int, found func(first, second Count) bool) float64 {
	power := 0.0
	second := binomial(n, p2)
	for made1, chance1 := range binomial(n, p1) {
		for made2, chance2 := range second {
			if found(Count{made1, n}, Count{made2, n}) {
				power += chance1 * chance2
			}
		}
	}
	return min(power, 1)
}

// Upset returns how likely the player with the rate better makes fewer of n breaks
// than the one with the rate worse, and how likely they tie. With tens and rates
// .05 apart the better is behind a third of the time: why one set proves little.
func Upset(worse, better float64, n int) (fewer, tie float64) {
	second := binomial(n, better)
	for made1, chance1 := range binomial(n, worse) {
		for made2, chance2 := range second[:made1+1] {
			if made2 < made1 {
				fewer += chance1 * chance2
			} else {
				tie += chance1 * chance2
			}
		}
	}
	return fewer, tie
}
