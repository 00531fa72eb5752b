package rackplan

import (
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// trust is the share of the computed strength that is believed: computed students
// differ in setup, hands and tables, but all obey one model of the physics, which
// may be off (our choice).
const trust = 0.5

// spread is what is believed of where one slot's ball ends (or the cue ball): gone
// with a chance, else in a cell. It is a beta and a Dirichlet distribution by their
// means and weights.
type spread struct {
	gone       float64
	goneWeight float64 // breaks that it is known from, computed and own
	cell       [Cells]float64
	cellWeight float64
	// own is the share of the student's own breaks in it: of those that say where
	// the ball ended.
	own float64
}

// tally counts own breaks of one ball.
type tally struct {
	seen   float64 // breaks in which it is known whether the ball was gone
	gone   float64
	cells  [Cells]float64
	placed float64
}

// spreadOf joins computed shares and own counts.
func spreadOf(c ComputedBall, strength float64, t tally) spread {
	before := float64(c.Gone) / 10000
	s := spread{goneWeight: strength + t.seen}
	s.gone = (strength*before + t.gone) / s.goneWeight
	up, total := strength*(1-before), 0.0
	for _, n := range c.Cells {
		total += float64(n)
	}
	s.cellWeight = up + t.placed
	for i := range s.cell {
		s.cell[i] = (up*float64(c.Cells[i])/max(total, 1) + t.cells[i]) / s.cellWeight
	}
	known := t.gone + t.placed
	s.own = known / (known + strength)
	return s
}

// observations is what a student's breaks with one rack on one table say, as if
// broken from the left.
type observations struct {
	breaks int
	cue    tally
	slots  []tally // in the game's order
}

// tallySets reads sets of one game, spot, kind of table and side.
func tallySets(g rack.Game, sets []drill.Set) observations {
	s := observations{slots: make([]tally, len(g.Slots()))}
	for _, set := range sets {
		if set.Setup.Side == table.Right {
			set = set.Mirror()
		}
		for _, b := range set.Breaks {
			s.add(g, set, b)
		}
	}
	return s
}

func (s *observations) add(g rack.Game, set drill.Set, b drill.Break) {
	s.breaks++
	s.cue.seen++
	if b.Cue.How == drill.Stopped {
		s.cue.addRest(CellOf(set.Kind, b.Cue.Place))
	} else {
		s.cue.gone++
	}
	var ended [16]bool
	gone := func(ball rack.Ball) {
		if i, there := slotIndex(g, set.Setup.Order, ball); there {
			s.slots[i].gone++
			ended[ball] = true
		}
	}
	for _, p := range b.Pocketed {
		gone(p.Ball)
	}
	for _, ball := range b.Off {
		gone(ball)
	}
	for _, r := range b.Rest {
		if i, there := slotIndex(g, set.Setup.Order, r.Ball); there && !ended[r.Ball] {
			s.slots[i].addRest(CellOf(set.Kind, r.Place))
		}
	}
	for i := range s.slots {
		s.slots[i].seen++ // what dropped is always written down
	}
}

func (t *tally) addRest(cell int) {
	t.cells[cell]++
	t.placed++
}

func slotIndex(g rack.Game, o rack.Order, ball rack.Ball) (int, bool) {
	for i, b := range o.Balls() {
		if b == ball {
			return i, true
		}
	}
	return 0, false
}
