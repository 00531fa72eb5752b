package rackplan

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// modelAfter is what is believed after a set.
func modelAfter(t testing.TB, set drill.Set) *model {
	t.Helper()
	g := set.Setup.Game
	size, base, err := computed().find(set.Kind.Feet, g, set.Setup.Spot)
	if err != nil {
		t.Fatal(err)
	}
	return modelFor(g, &size, base, tallySets(g, []drill.Set{set}), GoalPosition)
}

// played is the mean worth of a set's breaks, leave by leave.
func played(set drill.Set) float64 {
	sum := 0.0
	for _, b := range set.Breaks {
		if v, known := leave.EstimateValue(leave.FromBreak(b, set.Setup, set.Kind), leave.PlayerAt(leave.Club)); known {
			sum += v.Total()
		}
	}
	return sum / float64(len(set.Breaks))
}

func correlation(t testing.TB, set drill.Set) float64 {
	m, order := modelAfter(t, set), set.Setup.Order
	modelled, leaves := m.leaveValue(order), played(set)
	var xx, yy, xy float64
	names := m.game.Slots()
	for i := range names {
		for j := range i {
			to, err := order.SwapSlots(m.game, names[i], names[j])
			if err != nil {
				continue
			}
			x, y := m.leaveValue(to)-modelled, played(relabel(set, to))-leaves
			xx, yy, xy = xx+x*x, yy+y*y, xy+x*y
		}
	}
	return xy / math.Sqrt(xx*yy)
}

// Reports PLAN.md's numbers.
func BenchmarkJoint(b *testing.B) {
	for b.Loop() {
		for _, g := range []rack.Game{rack.NineBall, rack.TenBall} {
			set := computedBreaks(b, drill.StandardSetup(g, table.Left, table.NineFoot()), table.NineFoot(), 1200, 1)
			b.ReportMetric(correlation(b, set), string(g)+"-correlation")
		}
	}
}

func anyOrder(t *rapid.T, g rack.Game) rack.Order {
	return rack.ShuffleOrder(g, rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "order"), 1)))
}

// The weights of nine-ball and ten-ball share out all breaks in which a ball is
// left: one lowest ball each, with at most one next.
func TestWeigh_SharesOutAllBreaks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.SampledFrom([]rack.Game{rack.NineBall, rack.TenBall}).Draw(t, "game")
		n := g.BallCount()
		m := &model{game: g, slots: make([]spread, n)}
		goneRates, none := make([]float64, n), 1.0
		for i := range goneRates {
			goneRates[i] = rapid.Float64Range(0, 1).Draw(t, "gone")
			none *= goneRates[i]
		}
		w := m.weigh(anyOrder(t, g), goneRates)
		sum := 0.0
		for i := range n {
			sum += w.single[i]
			for _, p := range w.pair[i] {
				sum += p
			}
		}
		if math.Abs(sum+none-1) > 1e-9 {
			t.Fatalf("weights of %g and no ball left %g", sum, none)
		}
	})
}

// Worked by hand: only the balls of slots 1 and 2L matter when the 1 (head slot)
// is gone half the time and the 2 in 2L and the 3 in 2R never.
func TestWeigh_Worked(t *testing.T) {
	o, err := rack.ParseOrder(rack.NineBall, "1-2-3-4-9-5-6-7-8")
	if err != nil {
		t.Fatal(err)
	}
	m := &model{game: rack.NineBall, slots: make([]spread, 9)}
	w := m.weigh(o, []float64{0.5, 0, 0, 0, 0, 0, 0, 0, 0})
	if w.pair[0][1] != 0.5 || w.pair[1][2] != 0.5 || w.single[0] != 0 {
		t.Errorf("%v", w)
	}
}

// Back again is the same with the other sign.
func TestGain_BackAgain(t *testing.T) {
	k := table.NineFoot()
	for _, g := range rack.Games() {
		m := modelAfter(t, computedBreaks(t, drill.StandardSetup(g, table.Left, k), k, 30, 2))
		rapid.Check(t, func(t *rapid.T) {
			a, b := anyOrder(t, g), anyOrder(t, g)
			there, sd := m.estimateGain(a, b)
			back, sdBack := m.estimateGain(b, a)
			if math.Abs(there+back) > 1e-12 || math.Abs(sd-sdBack) > 1e-9 || math.IsNaN(sd) {
				t.Fatalf("there %g ± %g, back %g ± %g", there, sd, back, sdBack)
			}
			if math.Abs(there-(m.leaveValue(b)-m.leaveValue(a))) > 1e-12 {
				t.Fatalf("gain %g, worths %g and %g", there, m.leaveValue(a), m.leaveValue(b))
			}
		})
	}
}

func drawn(m *model, rng *rand.Rand) *model {
	slots := make([]spread, len(m.slots))
	for i, s := range m.slots {
		slots[i] = drawnSpread(s, rng)
	}
	n := newModel(m.game, m.size, drawnSpread(m.cue, rng), slots)
	n.by = m.by
	return n
}

func drawnSpread(s spread, rng *rand.Rand) spread {
	a, b := gamma(s.gone*s.goneWeight, rng), gamma((1-s.gone)*s.goneWeight, rng)
	out := s
	out.gone = a / (a + b)
	total := 0.0
	for z, p := range s.cell {
		out.cell[z] = gamma(p*s.cellWeight, rng)
		total += out.cell[z]
	}
	for z := range out.cell {
		out.cell[z] /= total
	}
	return out
}

// gamma draws from the gamma distribution of a shape (Marsaglia and Tsang 2000).
func gamma(shape float64, rng *rand.Rand) float64 {
	if shape <= 0 {
		return 0
	}
	if shape < 1 {
		return gamma(shape+1, rng) * math.Pow(rng.Float64(), 1/shape)
	}
	d := shape - 1.0/3
	c := 1 / math.Sqrt(9*d)
	for {
		x := rng.NormFloat64()
		v := 1 + c*x
		if v <= 0 {
			continue
		}
		v = v * v * v
		if math.Log(rng.Float64()) < x*x/2+d-d*v+d*math.Log(v) {
			return d * v
		}
	}
}
