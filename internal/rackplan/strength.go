package rackplan

import "math"

// strengthSteps are the strengths tried, as shares of that of computed students: one
// who breaks like them, down to one who breaks like nobody.
var strengthSteps = [...]float64{1, 1. / 2, 1. / 4, 1. / 8, 1. / 16, 1. / 32}

// leastShare is mixed into computed shares, so that a place where no computed ball
// ever came to rest is strange and not impossible.
const leastShare = 0.02

// strengthFor returns how many own breaks the computed ones weigh as much as for this
// student: the strength under which the student's own counts are the likeliest (as
// counts of beta and Dirichlet distributions around the computed shares), but no
// more than trust allows. Somebody whose breaks are unlike the computed ones is
// believed sooner, and what was not placed is known less well.
func strengthFor(base ComputedRack, own observations) float64 {
	most := base.Strength * trust
	best, strength := math.Inf(-1), most
	for _, step := range strengthSteps {
		s := most * step
		fit := base.Cue.logLikelihood(own.cue, s)
		for i, slot := range base.Slots {
			fit += slot.logLikelihood(own.slots[i], s)
		}
		if fit > best {
			best, strength = fit, s
		}
	}
	return strength
}

// logLikelihood is that of the counts of one ball, but for what does not depend on the
// strength.
func (c ComputedBall) logLikelihood(t tally, strength float64) float64 {
	gone := (1-leastShare)*float64(c.Gone)/10000 + leastShare/2
	up, total := strength*(1-gone), 0.0
	for _, n := range c.Cells {
		total += float64(n)
	}
	fit := logRising(strength*gone, t.gone) + logRising(up, t.seen-t.gone) - logRising(strength, t.seen)
	for z, n := range c.Cells {
		share := (1-leastShare)*float64(n)/max(total, 1) + leastShare/Cells
		fit += logRising(up*share, t.cells[z])
	}
	return fit - logRising(up, t.placed)
}

// logRising is the logarithm of x(x+1)…(x+n-1).
func logRising(x, n float64) float64 {
	if n == 0 {
		return 0
	}
	a, _ := math.Lgamma(x + n)
	b, _ := math.Lgamma(x)
	return a - b
}
