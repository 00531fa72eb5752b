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
	AsInstructed CauseName = "as told" // the means are what is told
	OffContact   CauseName = "contact" // the head ball is met elsewhere
	OffTip       CauseName = "tip"     // the tip strikes higher or lower
	OffPlace     CauseName = "place"   // the cue ball stands elsewhere, or the rack does
)

// leastRelativeShare is how likely, by the likeliest, an explanation must be at least to
// count as not told apart from it.
const leastRelativeShare = 0.1

// weighCauses weighs the explanations: the mean likelihood of each over what its
// prior allows.
func weighCauses(heights, places likelihoodSurface) []Cause {
	noContact, noTip := heights.contact.zeroIndex(), heights.other.zeroIndex()
	logs := []struct {
		what CauseName
		log  float64
	}{
		{AsInstructed, heights.logEvidence(func(c, o int) bool { return c == noContact && o == noTip })},
		{OffContact, heights.logEvidence(func(_, o int) bool { return o == noTip })},
		{OffTip, heights.logEvidence(func(c, _ int) bool { return c == noContact })},
		{OffPlace, places.logEvidence(func(c, _ int) bool { return c == places.contact.zeroIndex() })},
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

// logEvidence is the logarithm of the mean likelihood of the hands that belong to
// an explanation, by their prior.
func (s likelihoodSurface) logEvidence(belongs func(contact, other int) bool) float64 {
	high := s.highestLog()
	sum, prior := 0.0, 0.0
	s.visitHands(func(c, a, o, t int) {
		if belongs(c, o) {
			p := s.priorOf(c, a, o, t)
			prior += p
			sum += p * math.Exp(s.log[s.indexOf(c, a, o, t)]-high)
		}
	})
	return math.Log(sum/prior) + high
}

// PlausibleCauses lists the explanations that the breaks do not tell apart: the likeliest,
// and all that are at least a tenth as likely.
func (e Estimate) PlausibleCauses() []Cause {
	var list []Cause
	for _, c := range e.Causes {
		if c.Share >= leastRelativeShare*e.Causes[0].Share {
			list = append(list, c)
		}
	}
	return list
}
