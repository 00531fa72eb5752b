package main

import (
	"math"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/rack"
	"breakwright/internal/rackplan"
	"breakwright/internal/table"
)

// lookedAt is how many breaks of each student are judged leave by leave.
const lookedAt = 40

// meanWorth is that of what was seen so many times.
type meanWorth struct {
	sum  float64
	seen int
}

func (m *meanWorth) add(v float64) { m.sum, m.seen = m.sum+v, m.seen+1 }

// tenThousandths of the mean; 0 of nothing.
func (m meanWorth) tenThousandths() int {
	return int(math.Round(10000 * m.sum / float64(max(m.seen, 1))))
}

// pairWorth judges the leaves of computed breaks for every ball as the lowest and
// every other as the next: see rackplan.ComputedRack.Single and Pair.
type pairWorth struct {
	single []meanWorth
	pair   [][]meanWorth
}

func newPairWorth(balls int) *pairWorth {
	w := &pairWorth{single: make([]meanWorth, balls), pair: make([][]meanWorth, balls)}
	for i := range w.pair {
		w.pair[i] = make([]meanWorth, balls)
	}
	return w
}

// add judges a break: its cue ball and then its balls, slot by slot. In eight-ball no
// ball comes next.
func (w *pairWorth) add(r breaksim.BreakResult, k table.Kind, g rack.Game) {
	l := leave.Leave{Kind: k, Game: rack.NineBall, Hand: leave.Anywhere}
	if cue := r.Balls[0]; cue.End == breaksim.Stopped {
		l.Hand, l.Cue = leave.InPlay, k.SettleBall(cue.Place)
	}
	for i, first := range r.Balls[1:] {
		if first.End != breaksim.Stopped {
			continue
		}
		l.Placed = numbered(r, k, i, -1)
		value, _ := leave.EstimateValue(l, leave.PlayerAt(leave.Club))
		w.single[i].add(value.Shot)
		for j, next := range r.Balls[1:] {
			if j == i || next.End != breaksim.Stopped || g == rack.EightBall {
				continue
			}
			l.Placed = numbered(r, k, i, j)
			value, _ := leave.EstimateValue(l, leave.PlayerAt(leave.Club))
			w.pair[i][j].add(value.Total())
		}
	}
}

// numbered makes the ball of one slot the 1, of another the 2, and the others what
// comes.
func numbered(r breaksim.BreakResult, k table.Kind, first, next int) []drill.RestingBall {
	var lowest, others []drill.RestingBall
	for slot, b := range r.Balls[1:] {
		if b.End != breaksim.Stopped {
			continue
		}
		at := drill.RestingBall{Place: k.SettleBall(b.Place)}
		switch slot {
		case first:
			lowest = append([]drill.RestingBall{at}, lowest...)
		case next:
			lowest = append(lowest, at)
		default:
			others = append(others, at)
		}
	}
	all := append(lowest, others...)
	for i := range all {
		all[i].Ball = rack.Ball(i + 1)
	}
	return all
}

func (w *pairWorth) writeTo(r *rackplan.ComputedRack) {
	for i := range w.single {
		r.Single = append(r.Single, w.single[i].tenThousandths())
		if r.Game == rack.EightBall {
			continue
		}
		var row []int
		for _, m := range w.pair[i] {
			row = append(row, m.tenThousandths())
		}
		r.Pair = append(r.Pair, row)
	}
}
