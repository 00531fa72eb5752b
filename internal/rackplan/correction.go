package rackplan

import "breakwright/internal/rack"

// corrections say how much more or less than a sum of spreads the leaves of computed
// breaks were worth, slot by slot: cells blur what lies in the way, and balls of
// one break are not independent. They are ratios, applied to an order's weights.
type corrections struct {
	single []float64
	pair   [][]float64 // nil in eight-ball
}

// Ratios beyond these come of next to nothing seen.
const leastRatio, greatestRatio = 0.5, 2.0

// correctionsFor compares what was computed leave by leave with the model of the
// computed spreads alone. For a shot without position all pairs are single shots.
func correctionsFor(g rack.Game, size *ComputedSize, base ComputedRack, goal Goal) *corrections {
	slots := make([]spread, len(base.Slots))
	for i := range slots {
		slots[i] = spreadOf(base.Slots[i], base.Strength, tally{})
	}
	m := newModel(g, size, spreadOf(base.Cue, base.Strength, tally{}), slots)
	c := &corrections{single: make([]float64, len(slots))}
	for i := range slots {
		c.single[i] = ratioOf(base.Single[i], m.single[i])
	}
	if g == rack.EightBall {
		return c
	}
	c.pair = make([][]float64, len(slots))
	for i := range slots {
		c.pair[i] = make([]float64, len(slots))
		for j := range slots {
			c.pair[i][j] = c.single[i]
			if goal == GoalPosition && i != j {
				c.pair[i][j] = ratioOf(base.Pair[i][j], m.pair[i][j])
			}
		}
	}
	return c
}

func ratioOf(tenThousandths int, modelled float64) float64 {
	return min(max(float64(tenThousandths)/10000/max(modelled, 1e-9), leastRatio), greatestRatio)
}

func (c *corrections) ofSingle(slot int) float64 {
	if c == nil {
		return 1
	}
	return c.single[slot]
}

func (c *corrections) apply(w *weights) {
	if c == nil {
		return
	}
	for i, by := range c.single {
		w.single[i] *= by
	}
	for i, row := range c.pair {
		for j, by := range row {
			w.pair[i][j] *= by
		}
	}
}
