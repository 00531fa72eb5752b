package rackplan

import (
	"math"

	"breakwright/internal/rack"
)

// estimateGain returns the gain of one order over another, with its standard
// deviation: how far it may be off because the spreads are known from so many breaks
// only. The gain is linear in each spread, so the variance of each follows from what
// the gain would be if that ball surely ended there (beta and Dirichlet
// distributions), and they add up.
func (m *model) estimateGain(from, to rack.Order) (gain, sd float64) {
	goneRates := m.goneRates()
	change := subtractWeights(m.weigh(to, goneRates), m.weigh(from, goneRates))
	gain = m.sum(change)
	variance := m.cueVariance(change)
	for s := range m.slots {
		variance += m.slotVariance(s, from, to, goneRates)
	}
	return gain, math.Sqrt(variance)
}

func subtractWeights(a, b weights) weights {
	for i := range a.pair {
		for j := range a.pair[i] {
			a.pair[i][j] -= b.pair[i][j]
		}
		a.single[i] -= b.single[i]
		a.gone[i] -= b.gone[i]
	}
	return a
}

// slotVariance is what one slot adds to the variance: its ball gone, or up and in each
// cell.
func (m *model) slotVariance(s int, from, to rack.Order, goneRates []float64) float64 {
	was := goneRates[s]
	defer func() { goneRates[s] = was }()
	goneRates[s] = 1
	gone := m.sum(subtractWeights(m.weigh(to, goneRates), m.weigh(from, goneRates)))
	goneRates[s] = 0
	up := subtractWeights(m.weigh(to, goneRates), m.weigh(from, goneRates))
	mean, squares := 0.0, 0.0
	apart := m.sumByCell(s, up)
	for z, p := range m.slots[s].cell {
		in := m.sumWithout(s, up) + apart[z]
		mean, squares = mean+p*in, squares+p*in*in
	}
	sp := m.slots[s]
	variance := (gone - mean) * (gone - mean) * sp.gone * (1 - sp.gone) / (sp.goneWeight + 1)
	return variance + (1-sp.gone)*(1-sp.gone)*(squares-mean*mean)/(sp.cellWeight+1)
}

// sumWithout is the part of a sum that a slot's ball has no part in.
func (m *model) sumWithout(s int, w weights) float64 {
	sum := 0.0
	for i := range w.pair {
		for j, by := range w.pair[i] {
			if i != s && j != s {
				sum += by * m.pair[i][j]
			}
		}
		if i != s {
			sum += w.single[i] * m.single[i]
		}
		sum += w.gone[i]
	}
	return sum
}

// sumByCell is the other part, for the ball in each cell.
func (m *model) sumByCell(s int, w weights) (in [Cells]float64) {
	for z := range in {
		in[z] = w.single[s] * m.shot[z]
		for j, by := range w.pair[s] {
			in[z] += by * m.shot[z] * m.position[j][z]
		}
	}
	for i := range w.pair {
		by := w.pair[i][s]
		if by == 0 || i == s {
			continue
		}
		for first, p := range m.slots[i].cell {
			p *= by * m.shot[first]
			for z := range in {
				in[z] += p * float64(m.size.Position[first][z]) / 1000
			}
		}
	}
	return in
}

// shotWeights returns how much a shot on each cell counts.
func (m *model) shotWeights(w weights) (on [Cells]float64) {
	for i := range w.pair {
		for z, p := range m.slots[i].cell {
			on[z] += w.single[i] * p
			for j, by := range w.pair[i] {
				on[z] += by * p * m.position[j][z]
			}
		}
	}
	return on
}

// cueVariance is what the cue ball adds to it: in each cell, or lost.
func (m *model) cueVariance(w weights) float64 {
	on := m.shotWeights(w)
	mean, squares := 0.0, 0.0
	for c, p := range m.cue.cell {
		in := 0.0
		for z, by := range on {
			in += by * float64(m.size.Shot[c][z]) / 1000
		}
		mean, squares = mean+p*in, squares+p*in*in
	}
	up := 1 - m.cue.gone
	return mean*mean*up*m.cue.gone/(m.cue.goneWeight+1) + up*up*(squares-mean*mean)/(m.cue.cellWeight+1)
}

// layoutError is the standard deviation of a gain for what is not known of a shot when
// only the cells are: the chance from one cell on another differs from layout to
// layout, and somebody whose balls always come to rest alike always has the same one.
func (m *model) layoutError(from, to rack.Order) float64 {
	goneRates := m.goneRates()
	w := subtractWeights(m.weigh(to, goneRates), m.weigh(from, goneRates))
	on := m.shotWeights(w)
	cells, shots := 0.0, 0.0
	for c, p := range m.cue.cell {
		p *= 1 - m.cue.gone
		cells += p * p
		shots += on[c] * on[c]
	}
	return math.Hypot(shotScatter*math.Sqrt(cells*shots), positionScatter*math.Sqrt(m.positionSquares(w)))
}

// positionSquares adds up the squares of how much position counts, between all cells.
func (m *model) positionSquares(w weights) float64 {
	var by [Cells][Cells]float64
	for i := range w.pair {
		for j, weight := range w.pair[i] {
			if weight == 0 {
				continue
			}
			for z, p := range m.slots[i].cell {
				p *= weight * m.shot[z]
				for next, q := range m.slots[j].cell {
					by[z][next] += p * q
				}
			}
		}
	}
	sum := 0.0
	for z := range by {
		for _, b := range by[z] {
			sum += b * b
		}
	}
	return sum
}
