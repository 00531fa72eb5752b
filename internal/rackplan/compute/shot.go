package main

import (
	"math"
	"math/rand/v2"

	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/rack"
	"breakwright/internal/rackplan"
	"breakwright/internal/table"
)

// others is how many balls lie about beside the one shot at and the next.
const others = 4

// anywhere is a place of a cell, away from the balls of a leave.
func anywhere(l leave.Leave, cell int, rng *rand.Rand) table.Place {
	for range 100 {
		p := placeInCell(l.Kind, cell, rng.Float64()-0.5, rng.Float64()-0.5)
		if free(l, p) {
			return p
		}
	}
	return placeInCell(l.Kind, cell, 0, 0)
}

// placeInCell returns the place that lies shares of a cell, from -0.5 to 0.5, beside its
// middle.
func placeInCell(k table.Kind, cell int, right, foot float64) table.Place {
	across, along := table.Inches(cell%rackplan.CellsAcross), table.Inches(cell/rackplan.CellsAcross)
	return k.SettleBall(table.Place{
		X: k.Width() * ((across+0.5+table.Inches(right))/rackplan.CellsAcross - 0.5),
		Y: k.Length() * (along + 0.5 + table.Inches(foot)) / rackplan.CellsAlong,
	})
}

func free(l leave.Leave, p table.Place) bool {
	for _, r := range l.Placed {
		if r.Place.Distance(p) <= table.BallDiameter {
			return false
		}
	}
	return true
}

// layout puts the 1 and the 2 into cells and others anywhere.
func layout(k table.Kind, one, two int, rng *rand.Rand) leave.Leave {
	l := leave.Leave{Kind: k, Game: rack.NineBall}
	put := func(ball rack.Ball, cell int) {
		l.Placed = append(l.Placed, drill.RestingBall{Ball: ball, Place: anywhere(l, cell, rng)})
	}
	put(1, one)
	put(2, two)
	for i := range others {
		put(rack.Ball(3+i), rng.IntN(rackplan.Cells))
	}
	return l
}

// thousandths of a mean.
func thousandths(sum float64, n int) int { return int(math.Round(1000 * sum / float64(n))) }

// shotTable: see rackplan.ComputedSize.Shot.
func shotTable(k table.Kind, seed uint64) (t [rackplan.Cells][rackplan.Cells]int) {
	const draws = 60
	rng := rand.New(rand.NewPCG(seed, 100+uint64(k.Feet)))
	for from := range t {
		for on := range t[from] {
			sum := 0.0
			for range draws {
				l := layout(k, on, rng.IntN(rackplan.Cells), rng)
				sum += l.ChanceFrom(anywhere(l, from, rng), 1, leave.Club)
			}
			t[from][on] = thousandths(sum, draws)
		}
	}
	return t
}

// positionTable: see rackplan.ComputedSize.Position. The cue ball comes from
// anywhere; each shot counts by its chance.
func positionTable(k table.Kind, seed uint64) (t [rackplan.Cells][rackplan.Cells]int) {
	const draws = 60
	rng := rand.New(rand.NewPCG(seed, 200+uint64(k.Feet)))
	for on := range t {
		for next := range t[on] {
			sum, weight := 0.0, 0.0
			for range draws {
				l := layout(k, on, next, rng)
				l.Cue = anywhere(l, rng.IntN(rackplan.Cells), rng)
				if v, known := leave.EstimateValue(l, leave.PlayerAt(leave.Club)); known {
					sum, weight = sum+v.Shot*v.Position, weight+v.Shot
				}
			}
			t[on][next] = int(math.Round(1000 * sum / max(weight, 1e-9)))
		}
	}
	return t
}
