package fit

import "math"

// weigh gives each break of a bank its weight under hands whose one part has
// this mean and standard deviation: how much likelier such hands are to make
// that stroke than the bank was to draw it.
func weigh(strokes []float64, s spread, mean, sd float64) []float64 {
	w := make([]float64, len(strokes))
	for i, x := range strokes {
		w[i] = normal(x, mean, sd) / s.density(x)
	}
	return w
}

// table of the chances of every cell under one pair of hands. Its memory is
// used again for the next.
type chances struct {
	cell [cells]float64
	wing [wings]float64
	rest [rests]float64
	// breaks is how many breaks of the bank it stands on, as if all counted
	// alike (Kish's effective sample size).
	breaks float64
}

// Few breaks are eked out: a cell with what its wing ball and its cue ball have
// apart, as if eke breaks more had been seen; the wing ball with half a break of
// each sort, the cue ball with ekeRest breaks of the whole bank. All are choices of
// the computation: FIT.md says how well the result is calibrated.
const (
	eke     = 30
	ekeWing = 0.5
	ekeRest = 5
)

// fill counts the bank's breaks by weight.
func (c *chances) fill(b *Bank, contact, other []float64) {
	*c = chances{}
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
		c.wing[w] = (c.breaks*c.wing[w] + ekeWing) / (c.breaks + ekeWing*wings)
	}
	for r := range c.rest {
		c.rest[r] = (c.breaks*c.rest[r] + ekeRest*b.rest[r]) / (c.breaks + ekeRest)
	}
}

// leastChance is that of what the model cannot do at all.
const leastChance = 1e-4

// of gives the chance of what was seen of a break.
func (c *chances) of(seen sighting) float64 {
	sum := 0.0
	for w := range wings {
		if !seen.wings[w] {
			continue
		}
		for p := range paths {
			if r := seen.cue*paths + p; seen.paths[p] {
				sum += (c.breaks*c.cell[w*rests+r] + eke*c.wing[w]*c.rest[r]) / (c.breaks + eke)
			}
		}
	}
	return math.Max(sum, leastChance)
}

// counted is what was seen, and how often.
type counted struct {
	seen  sighting
	times float64
}

// count puts like breaks together.
func count(all []sighting) []counted {
	var list []counted
	index := map[sighting]int{}
	for _, s := range all {
		i, known := index[s]
		if !known {
			i = len(list)
			index[s] = i
			list = append(list, counted{seen: s})
		}
		list[i].times++
	}
	return list
}

// logOf gives the logarithm of the chance of all that was seen.
func (c *chances) logOf(all []counted) float64 {
	sum := 0.0
	for _, one := range all {
		sum += one.times * math.Log(c.of(one.seen))
	}
	return sum
}
