package advice

import (
	"slices"

	"breakwright/internal/belief"
)

// weighCauses gives how likely each cause is, the likeliest first. Steady hands that
// do as they are told can be told wrongly: where one of the changes would gain them
// wronglyTold, its part is the cause and not nothing.
func (l *analysis) weighCauses(changes []weighedChange) []belief.CauseShare {
	shares := l.hands.CauseShares()
	best, gain := VaryNone, wronglyTold
	for _, c := range changes {
		if g := c.effect.SoundGain * easeOf[c.variable]; g > gain {
			best, gain = c.variable, g
		}
	}
	if best == VaryNone {
		return shares
	}
	told := slices.IndexFunc(shares, func(s belief.CauseShare) bool { return s.Cause == belief.Nothing })
	part := slices.IndexFunc(shares, func(s belief.CauseShare) bool { return s.Cause == causeOf[best] })
	shares[part].Share += shares[told].Share
	shares[told].Share = 0
	belief.SortLikeliestFirst(shares)
	return shares
}

// wronglyTold is the gain in worth, a break, from which a setup is wrong for hands
// that do as they are told.
const wronglyTold = 0.12

// shareOf gives how likely a cause is; 0 before anything was weighed.
func (d *decision) shareOf(c belief.Cause) float64 {
	for _, s := range d.causes {
		if s.Cause == c {
			return s.Share
		}
	}
	return 0
}
