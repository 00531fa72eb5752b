package fit

import "math"

// Where the cue ball ends is always noted, so that it can show whether the model
// makes such breaks at all. odd is how far Pearson's X² of the cue balls' ends
// lies above its mean, in standard deviations, if the likeliest hands were the
// student's; X² counts by the design effect. Mean and variance are those of a
// multinomial with small counts (Haldane 1937, from memory; tested).
func (s likelihoodSurface) oddness(all []RecordedBreaks, sightings [][]observationCount) float64 {
	contact, scatter, other, tipScatter := s.likeliestHands()
	sum, mean, variance, n := 0.0, 0.0, 0.0, 0.0
	var c outcomeChances
	for i, seen := range all {
		b := seen.Banks.Tip
		c.fillFromBank(b,
			importanceWeights(b.contact, drawContact, s.contact.at[contact], s.contactScatter.at[scatter]),
			importanceWeights(b.other, b.otherSpread(), s.other.at[other], s.tipScatter.at[tipScatter]))
		var times [cues]float64
		for _, one := range sightings[i] {
			times[one.observed.cue] += one.times
		}
		x, m, v, breaks := pearsonStatistic(times[:], c.cueEndChances())
		sum, mean, variance, n = sum+x, mean+m, variance+v, n+breaks
	}
	return (sum/designEffect(n) - mean) / math.Sqrt(variance)
}

// cueEndChances are the chances of the cue ball's ends, whatever its way.
func (c *outcomeChances) cueEndChances() []float64 {
	ends := make([]float64, cues)
	for r, q := range c.rest {
		ends[r/paths] += q
	}
	return ends
}

// rareChance is the chance below which ends are put together.
const rareChance = 0.02

// pearsonStatistic returns X² of counts under given chances, its mean and variance, and how
// many were counted. Rare sorts are put together.
func pearsonStatistic(times, chance []float64) (x, mean, variance, n float64) {
	var few, fewChance, inverse, sorts float64
	for _, t := range times {
		n += t
	}
	if n == 0 {
		return 0, 0, 0, 0
	}
	add := func(times, chance float64) {
		x += (times - n*chance) * (times - n*chance) / (n * chance)
		inverse += 1 / chance
		sorts++
	}
	for i, q := range chance {
		if q < rareChance {
			few, fewChance = few+times[i], fewChance+q
			continue
		}
		add(times[i], q)
	}
	if fewChance > 0 {
		add(few, math.Max(fewChance, rareChance/4))
	}
	return x, sorts - 1, 2*(sorts-1) + (inverse-sorts*sorts-2*sorts+2)/n, n
}

// likeliestHands returns the hands with the highest probability.
func (s likelihoodSurface) likeliestHands() (contact, scatter, other, tipScatter int) {
	best := math.Inf(-1)
	s.visitHands(func(c, a, o, t int) {
		if l := s.log[s.indexOf(c, a, o, t)] + math.Log(s.priorOf(c, a, o, t)); l > best {
			best, contact, scatter, other, tipScatter = l, c, a, o, t
		}
	})
	return contact, scatter, other, tipScatter
}
