package advice

import (
	"slices"

	"breakwright/internal/belief"
)

// weighCauses returns how likely each cause is, the likeliest first. Steady hands that
// do as they are told can be told wrongly: where one of the changes would gain them
// enough, its part is the cause and not nothing.
func (l *analysis) weighCauses(changes []weighedChange) []belief.CauseShare {
	shares := l.hands.CauseShares()
	best, gain := VaryNone, 0.0
	for _, c := range changes {
		if g := c.effect.SoundGain * easeOf[c.variable]; g > gain && l.isWrongSetup(c, g) {
			best, gain = c.variable, g
		}
	}
	if best == VaryNone {
		return shares
	}
	nothing := slices.IndexFunc(shares, func(s belief.CauseShare) bool { return s.Cause == belief.Nothing })
	part := slices.IndexFunc(shares, func(s belief.CauseShare) bool { return s.Cause == causeOf[best] })
	shares[part].Share += shares[nothing].Share
	shares[nothing].Share = 0
	belief.SortLikeliestFirst(shares)
	return shares
}

// A setup is wrong for hands that do as they are told from wrongSetup of gain in worth
// on, a break, where the breaks show the pattern that goes with it; from oddSetup on where
// the part is also told further from ordinary than it would be then; and from
// wrongSetupUnseen on otherwise, since tables differ from the computed ones.
const (
	oddSetup         = 0.08
	wrongSetup       = 0.12
	wrongSetupUnseen = 0.2
)

// isWrongSetup reports whether a gain for hands that do as they are told makes the
// setup wrong.
func (l *analysis) isWrongSetup(c weighedChange, gain float64) bool {
	switch {
	case gain > wrongSetupUnseen:
		return true
	case gain > wrongSetup:
		return l.showsPatternOf(c.proposedChange)
	}
	return gain > oddSetup && l.showsOddSetup(c.proposedChange)
}

// showsOddSetup reports whether the breaks show the pattern that asks for a change, and the
// change brings the part nearer to ordinary.
func (l *analysis) showsOddSetup(c proposedChange) bool {
	now, then := measureMisfit(l.currentSetup(), l.kind), measureMisfit(c.to, l.kind)
	return then.total() < now.total() && l.showsPatternOf(c)
}

// showsPatternOf reports whether the breaks show the pattern that asks for a change, with
// its rule's certainty.
func (l *analysis) showsPatternOf(c proposedChange) bool {
	r := ruleNamed(ruleForChange(c, l.currentSetup()))
	n := l.rules.numbersOf(r.Rule)
	return l.currentTally().breaks >= n.MinBreaks && r.observe(l, n).certainty >= n.Certainty
}

// shareOf returns how likely a cause is; 0 before anything was weighed.
func (d *decision) shareOf(c belief.Cause) float64 {
	for _, s := range d.causes {
		if s.Cause == c {
			return s.Share
		}
	}
	return 0
}
