package fit

import (
	"math"

	"breakwright/internal/table"
)

// Estimate is what the breaks say of a student's hands.
type Estimate struct {
	Breaks int
	// Contact is how far right of the contact asked for the head ball is met on the
	// average, in inches; ContactScatter the standard deviation from break to
	// break.
	Contact, ContactScatter UncertainValue
	// Tip is how far above the height asked for the tip strikes on the average, as a
	// part of the radius; TipScatter its standard deviation.
	Tip, TipScatter UncertainValue
	// Odd says that even the likeliest hands make other breaks than these in the
	// model. The rest is then worth little.
	Odd bool
	// Causes are single explanations of what was seen, the likeliest first.
	Causes []Cause
}

// Level is the probability that a Value lies between its Low and its High, if
// the model is right.
const Level = 0.8

// UncertainValue is a number that is not known: half of what is believed lies above
// Middle.
type UncertainValue struct {
	Middle, Low, High float64
	// Learned is how much narrower the range is than it was before any break was
	// seen: 0 for nothing learned, 1 for certainty.
	Learned float64
}

func (v UncertainValue) mirrorValue() UncertainValue {
	v.Middle, v.Low, v.High = table.FlipSign(v.Middle), table.FlipSign(v.High), table.FlipSign(v.Low)
	return v
}

// IsInformative reports whether the breaks tell anything worth saying of the value: the
// range has become a quarter narrower at least.
func (v UncertainValue) IsInformative() bool { return v.Learned >= 0.25 }

// ExcludesZero reports whether the range leaves out 0.
func (v UncertainValue) ExcludesZero() bool { return v.Low > 0 || v.High < 0 }

// sumUpEstimate sums the surface up along each part.
func (s likelihoodSurface) sumUpEstimate() Estimate {
	high := s.highestLog()
	contact, other := make([]float64, len(s.contact.at)), make([]float64, len(s.other.at))
	scatter, tipScatter := make([]float64, len(s.contactScatter.at)), make([]float64, len(s.tipScatter.at))
	s.visitHands(func(c, a, o, t int) {
		p := s.priorOf(c, a, o, t) * math.Exp(s.log[s.indexOf(c, a, o, t)]-high)
		contact[c] += p
		scatter[a] += p
		other[o] += p
		tipScatter[t] += p
	})
	return Estimate{
		Contact: s.contact.readValue(contact, false), Tip: s.other.readValue(other, false),
		ContactScatter: s.contactScatter.readValue(scatter, true), TipScatter: s.tipScatter.readValue(tipScatter, true),
	}
}

// readValue reads the range off the probabilities of an axis; on an axis of
// logarithms it is learned on their scale.
func (a gridAxis) readValue(posterior []float64, logarithmic bool) UncertainValue {
	tail := (1 - Level) / 2
	scale := func(x float64) float64 {
		if logarithmic {
			return math.Log(x)
		}
		return x
	}
	v := UncertainValue{Middle: a.quantile(posterior, 0.5), Low: a.quantile(posterior, tail), High: a.quantile(posterior, 1-tail)}
	before := scale(a.quantile(a.prior, 1-tail)) - scale(a.quantile(a.prior, tail))
	v.Learned = math.Max(0, 1-(scale(v.High)-scale(v.Low))/before)
	return v
}

// quantile takes each value of the axis as the middle of a step as wide as its
// neighbours are apart, and the probability as even within the step.
func (a gridAxis) quantile(probability []float64, q float64) float64 {
	sum := 0.0
	for _, p := range probability {
		sum += p
	}
	left := q * sum
	for i, p := range probability {
		if left > p && i < len(probability)-1 {
			left -= p
			continue
		}
		low, high := a.stepEdge(i), a.stepEdge(i+1)
		if !(p > 0) {
			return a.at[i]
		}
		return low + (high-low)*math.Min(left/p, 1)
	}
	return a.at[len(a.at)-1]
}

// stepEdge is between two values of the axis, or at its ends.
func (a gridAxis) stepEdge(i int) float64 {
	switch i {
	case 0:
		return a.at[0]
	case len(a.at):
		return a.at[len(a.at)-1]
	}
	return (a.at[i-1] + a.at[i]) / 2
}
