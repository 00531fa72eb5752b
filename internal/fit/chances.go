package fit

import "math"

// importanceWeights gives each break of a bank its weight under hands whose one part has
// this mean and standard deviation: how much likelier such hands are to make
// that stroke than the bank was to draw it.
func importanceWeights(strokes []float64, s strokeSpread, mean, sd float64) []float64 {
	w := make([]float64, len(strokes))
	for i, x := range strokes {
		w[i] = normalDensity(x, mean, sd) / s.densityAt(x)
	}
	return w
}

// table of the chances of every cell under one pair of hands. Its memory is
// used again for the next.
type outcomeChances struct {
	cell [cells]float64
	wing [wings]float64
	rest [rests]float64
	// breaks is how many breaks of the bank it stands on, as if all counted
	// alike (Kish's effective sample size).
	breaks float64
}

// Few breaks are eked out: a cell with what its wing ball and its cue ball have
// apart, as if eke breaks more had been seen; the wing ball with half a break of
// each sort, the cue ball with restPseudoBreaks breaks of the whole bank. All are choices of
// the computation: FIT.md says how well the result is calibrated.
const (
	cellPseudoBreaks = 30
	wingPseudoBreaks = 0.5
	restPseudoBreaks = 5
)

// fillFromBank counts the bank's breaks by weight.
func (c *outcomeChances) fillFromBank(b *BreakBank, contact, other []float64) {
	*c = outcomeChances{}
	sum, squares := 0.0, 0.0
	for i, cell := range b.outcome {
		w := contact[i] * other[i]
		c.cell[cell] += w
		sum += w
		squares += w * w
	}
	if !(sum > 0) {
		return
	}
	c.breaks = sum * sum / squares
	for i := range c.cell {
		if c.cell[i] == 0 {
			continue
		}
		c.cell[i] /= sum
		c.wing[i/rests] += c.cell[i]
		c.rest[i%rests] += c.cell[i]
	}
	for w := range c.wing {
		c.wing[w] = (c.breaks*c.wing[w] + wingPseudoBreaks) / (c.breaks + wingPseudoBreaks*wings)
	}
	for r := range c.rest {
		c.rest[r] = (c.breaks*c.rest[r] + restPseudoBreaks*b.rest[r]) / (c.breaks + restPseudoBreaks)
	}
}

// leastChance is that of what the model cannot do at all.
const leastChance = 1e-4

// chanceOf returns the chance of what was seen of a break.
func (c *outcomeChances) chanceOf(seen observation) float64 {
	sum := 0.0
	for w := range wings {
		if !seen.wings[w] {
			continue
		}
		for p := range paths {
			if r := seen.cue*paths + p; seen.paths[p] {
				sum += (c.breaks*c.cell[w*rests+r] + cellPseudoBreaks*c.wing[w]*c.rest[r]) / (c.breaks + cellPseudoBreaks)
			}
		}
	}
	return math.Max(sum, leastChance)
}

// observationCount is what was seen, and how often.
type observationCount struct {
	observed observation
	times    float64
}

// countObservations puts like breaks together.
func countObservations(all []observation) []observationCount {
	var list []observationCount
	index := map[observation]int{}
	for _, s := range all {
		i, known := index[s]
		if !known {
			i = len(list)
			index[s] = i
			list = append(list, observationCount{observed: s})
		}
		list[i].times++
	}
	return list
}

// logLikelihood returns the logarithm of the chance of all that was seen.
func (c *outcomeChances) logLikelihood(all []observationCount) float64 {
	sum := 0.0
	for _, one := range all {
		sum += one.times * math.Log(c.chanceOf(one.observed))
	}
	return sum
}
