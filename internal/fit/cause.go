package fit

import (
	"cmp"
	"math"
	"slices"
)

// Cause is one explanation of what was seen.
type Cause struct {
	What CauseName
	// Share is its probability among those listed, all thought alike likely
	// before any break was seen.
	Share float64
}

// CauseName names an explanation; in each the hands vary as much as they may.
type CauseName string

// The explanations.
const (
	AsTold     CauseName = "as told" // the means are what is told
	OffContact CauseName = "contact" // the head ball is met elsewhere
	OffTip     CauseName = "tip"     // the tip strikes higher or lower
	OffPlace   CauseName = "place"   // the cue ball stands elsewhere, or the rack does
)

// alike is how likely, by the likeliest, an explanation must be at least to
// count as not told apart from it.
const alike = 0.1

// causes weighs the explanations: the mean likelihood of each over what its
// prior allows.
func causes(heights, places surface) []Cause {
	noContact, noTip := heights.contact.zero(), heights.other.zero()
	logs := []struct {
		what CauseName
		log  float64
	}{
		{AsTold, heights.evidence(func(c, o int) bool { return c == noContact && o == noTip })},
		{OffContact, heights.evidence(func(_, o int) bool { return o == noTip })},
		{OffTip, heights.evidence(func(c, _ int) bool { return c == noContact })},
		{OffPlace, places.evidence(func(c, _ int) bool { return c == places.contact.zero() })},
	}
	high := math.Inf(-1)
	for _, l := range logs {
		high = math.Max(high, l.log)
	}
	sum := 0.0
	list := make([]Cause, len(logs))
	for i, l := range logs {
		list[i] = Cause{l.what, math.Exp(l.log - high)}
		sum += list[i].Share
	}
	for i := range list {
		list[i].Share /= sum
	}
	slices.SortStableFunc(list, func(a, b Cause) int { return cmp.Compare(b.Share, a.Share) })
	return list
}

// evidence is the logarithm of the mean likelihood of the hands that belong to
// an explanation, by their prior.
func (s surface) evidence(belongs func(contact, other int) bool) float64 {
	high := s.highest()
	sum, prior := 0.0, 0.0
	s.each(func(c, a, o, t int) {
		if belongs(c, o) {
			p := s.prior(c, a, o, t)
			prior += p
			sum += p * math.Exp(s.log[s.at(c, a, o, t)]-high)
		}
	})
	return math.Log(sum/prior) + high
}

// Apart lists the explanations that the breaks do not tell apart: the likeliest,
// and all that are at least a tenth as likely.
func (e Estimate) Apart() []Cause {
	var list []Cause
	for _, c := range e.Causes {
		if c.Share >= alike*e.Causes[0].Share {
			list = append(list, c)
		}
	}
	return list
}
