package evidence

import (
	"fmt"
	"math"
)

// SPRT is the sequential probability ratio test of Wald (1947) for a rate: it asks
// break by break whether the rate is nearer to a low or a high one, and stops as
// soon as it can tell. See NIST/SEMATECH e-Handbook 6.2.6.
type SPRT struct {
	perMake, perMiss float64
	upper, lower     float64
	low, high        float64
	alpha, beta      float64
}

// NewSPRT returns the test between the rates low and high with the chance alpha of
// saying high when it is low, and beta of saying low when it is high. It refuses
// rates that are not 0 < low < high < 1 and errors that are not above 0 with a sum
// below 1.
func NewSPRT(low, high, alpha, beta float64) (SPRT, error) {
	if !(0 < low && low < high && high < 1) {
		return SPRT{}, fmt.Errorf("sequential test: the rates %g and %g should be between 0 and 1, the lower first", low, high)
	}
	if !(alpha > 0 && beta > 0 && alpha+beta < 1) {
		return SPRT{}, fmt.Errorf("sequential test: the error chances %g and %g should be above 0 and together below 1", alpha, beta)
	}
	return SPRT{
		perMake: math.Log(high / low), perMiss: math.Log((1 - high) / (1 - low)),
		upper: math.Log((1 - beta) / alpha), lower: math.Log(beta / (1 - alpha)),
		low: low, high: high, alpha: alpha, beta: beta,
	}, nil
}

// Score returns the log-likelihood ratio after a count: above 0 speaks for the high
// rate.
func (s SPRT) Score(c Count) float64 {
	if !c.usable() {
		return 0
	}
	return float64(c.Made)*s.perMake + float64(c.Tried-c.Made)*s.perMiss
}

// Bounds returns the scores at which the test stops: at or below the first for the
// low rate, at or above the second for the high one.
func (s SPRT) Bounds() (stopLow, stopHigh float64) {
	return s.lower, s.upper
}

// Judge returns Above when a count speaks for the high rate, Below when for the low
// one, and Unsure when the test goes on.
func (s SPRT) Judge(c Count) Answer {
	switch score := s.Score(c); {
	case !c.usable():
		return Unsure
	case score >= s.upper:
		return Above
	case score <= s.lower:
		return Below
	}
	return Unsure
}

// Lines are the two parallel lines of the test on a chart of makes against breaks:
// makes = Slope × breaks + HighAt, and makes = Slope × breaks - LowAt.
type Lines struct {
	Slope, HighAt, LowAt float64
}

// Lines returns the lines at which the test stops.
func (s SPRT) Lines() Lines {
	k := s.perMake - s.perMiss
	return Lines{Slope: -s.perMiss / k, HighAt: s.upper / k, LowAt: -s.lower / k}
}

// HighNumber returns the makes from which the test stops for the high rate after so
// many breaks; it may be more than can be made.
func (l Lines) HighNumber(breaks int) int {
	return int(math.Ceil(l.Slope*float64(breaks) + l.HighAt - 1e-9))
}

// LowNumber returns the makes up to which the test stops for the low rate; below 0
// when it cannot yet.
func (l Lines) LowNumber(breaks int) int {
	return int(math.Floor(l.Slope*float64(breaks) - l.LowAt + 1e-9))
}

// MeanBreaks returns Wald's estimate of the breaks needed on average, when the rate
// is the low and when it is the high one. The true numbers are a little larger
// because the score steps past the bounds: see Course.
func (s SPRT) MeanBreaks() (ifLow, ifHigh float64) {
	drift := func(rate float64) float64 { return rate*s.perMake + (1-rate)*s.perMiss }
	ifLow = ((1-s.alpha)*s.lower + s.alpha*s.upper) / drift(s.low)
	ifHigh = (s.beta*s.lower + (1-s.beta)*s.upper) / drift(s.high)
	return ifLow, ifHigh
}

// Course is how a sequential test goes when the rate is known.
type Course struct {
	// High and Low are the chances to stop with either verdict, Unsure of
	// reaching the end without one.
	High, Low, Unsure float64
	// MeanBreaks is the average length.
	MeanBreaks float64
}

// Course works out exactly how the test goes at a true rate when the score is looked
// at only after every so many breaks (1: after each), and ends at most breaks.
func (s SPRT) Course(rate float64, every, most int) Course {
	rate, every = between(rate, 0, 1), max(every, 1)
	var c Course
	chances := []float64{1} // of every number of makes, test still running
	for n := 1; n <= most; n++ {
		chances = oneMore(chances, rate)
		if n%every != 0 {
			continue
		}
		for made, chance := range chances {
			switch s.Judge(Count{made, n}) {
			case Above:
				c.High += chance
			case Below:
				c.Low += chance
			default:
				continue
			}
			c.MeanBreaks += chance * float64(n)
			chances[made] = 0
		}
	}
	for _, chance := range chances {
		c.Unsure += chance
	}
	c.MeanBreaks += c.Unsure * float64(max(most, 0))
	return c
}
