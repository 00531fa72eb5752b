package rackplan

import "breakwright/internal/rack"

// model is everything an order is judged by.
type model struct {
	game  rack.Game
	size  *ComputedSize
	cue   spread
	slots []spread
	by    *corrections // nil for none

	// shot[z] is the chance of a shot on a ball in cell z from where the cue ball
	// comes to rest, 0 for the breaks that lose it. position[j][z] is that of a shot
	// on the ball of slot j, wherever it is, after one in cell z was made.
	shot     [Cells]float64
	position [][Cells]float64
	// pair[i][j] is the worth of a break whose lowest ball is that of slot i and the
	// next that of slot j, both up. single[i] is the chance of a shot on slot i's
	// ball.
	pair   [][]float64
	single []float64
}

// modelFor joins what is computed of a rack and what a student's own breaks say.
func modelFor(g rack.Game, size *ComputedSize, base ComputedRack, own observations, goal Goal) *model {
	strength := strengthFor(base, own)
	slots := make([]spread, len(base.Slots))
	for i := range slots {
		slots[i] = spreadOf(base.Slots[i], strength, own.slots[i])
	}
	m := newModel(g, size, spreadOf(base.Cue, strength, own.cue), slots)
	m.by = correctionsFor(g, size, base, goal)
	return m
}

func newModel(g rack.Game, size *ComputedSize, cue spread, slots []spread) *model {
	m := &model{game: g, size: size, cue: cue, slots: slots}
	for c, p := range cue.cell {
		p *= 1 - cue.gone
		for z := range m.shot {
			m.shot[z] += p * float64(size.Shot[c][z]) / 1000
		}
	}
	n := len(slots)
	m.position = make([][Cells]float64, n)
	m.single = make([]float64, n)
	for j, s := range slots {
		for z := range m.shot {
			for next, p := range s.cell {
				m.position[j][z] += p * float64(size.Position[z][next]) / 1000
			}
			m.single[j] += s.cell[z] * m.shot[z]
		}
	}
	m.pair = make([][]float64, n)
	for i, s := range slots {
		m.pair[i] = make([]float64, n)
		for j := range slots {
			for z, p := range s.cell {
				m.pair[i][j] += p * m.shot[z] * m.position[j][z]
			}
		}
	}
	return m
}

// goneRates returns each slot's chance to be gone.
func (m *model) goneRates() []float64 {
	g := make([]float64, len(m.slots))
	for i, s := range m.slots {
		g[i] = s.gone
	}
	return g
}

// weights are how an order is made of pairs and singles: the worth is the sum of
// weights times pairs, singles and, for eight-ball, chances to be gone.
type weights struct {
	pair         [][]float64
	single, gone []float64
}

// leaveValue returns the worth of an order: the expected worth of a break.
func (m *model) leaveValue(o rack.Order) float64 {
	w := m.weigh(o, m.goneRates())
	return m.sum(w)
}

func (m *model) sum(w weights) float64 {
	sum := 0.0
	for i := range w.pair {
		for j, by := range w.pair[i] {
			sum += by * m.pair[i][j]
		}
		sum += w.single[i]*m.single[i] + w.gone[i]
	}
	return sum
}

// weigh returns an order's weights, when the slots' balls are gone with the given
// chances, independently.
func (m *model) weigh(o rack.Order, gone []float64) weights {
	n := len(m.slots)
	w := weights{pair: make([][]float64, n), single: make([]float64, n), gone: make([]float64, n)}
	for i := range w.pair {
		w.pair[i] = make([]float64, n)
	}
	if m.game == rack.EightBall {
		m.weighGroup(&w, o, gone)
		m.by.apply(&w)
		return w
	}
	byNumber := slotsByNumber(o)
	before := 1.0 // all lower balls gone
	for a, i := range byNumber {
		between := before * (1 - gone[i])
		for _, j := range byNumber[a+1:] {
			w.pair[i][j] = between * (1 - gone[j])
			between *= gone[j]
		}
		w.single[i] = between // it is the last one up
		before *= gone[i]
	}
	m.by.apply(&w)
	return w
}

// slotsByNumber lists the slots' indices in the order of their balls.
func slotsByNumber(o rack.Order) []int {
	balls := o.Balls()
	slots := make([]int, len(balls))
	for i, b := range balls {
		slots[int(b)-1] = i
	}
	return slots
}

// weighGroup weighs eight-ball: the better group's share of balls that are down or
// have a shot. The table is open after the break, so the breaker may choose; what
// is better on the whole is taken, not break by break.
func (m *model) weighGroup(w *weights, o rack.Order, gone []float64) {
	best, striped := -1.0, false
	for _, group := range [2]bool{false, true} {
		sum := 0.0
		for i, b := range o.Balls() {
			if b != 8 && b.IsStriped() == group {
				sum += m.slots[i].gone + (1-m.slots[i].gone)*m.by.ofSingle(i)*m.single[i]
			}
		}
		if sum > best {
			best, striped = sum, group
		}
	}
	for i, b := range o.Balls() {
		if b != 8 && b.IsStriped() == striped {
			w.single[i], w.gone[i] = (1-gone[i])/groupBalls, gone[i]/groupBalls
		}
	}
}
