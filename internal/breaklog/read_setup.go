package breaklog

import (
	"fmt"
	"strconv"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// told is what a row says of its set: everything that all rows of a set share.
type told struct {
	table string
	kind  table.Kind
	setup drill.Setup // without its speed
}

func (r *reader) told() told {
	t := told{table: r.name(colTable), kind: r.kind()}
	s := &t.setup
	s.Game = word(r, colGame, gameWords)
	if s.Game == "" {
		s.Game = rack.NineBall
	}
	s.Cue = table.Place{X: table.Inches(r.neededNumber(colCueX)), Y: table.Inches(r.neededNumber(colCueY))}
	s.Side = word(r, colSide, sideWords)
	if s.Side == "" {
		s.Side = table.SideOf(s.Cue.X)
	}
	s.Order = r.order(s.Game, s.Side)
	s.Spot = r.spot(s.Game)
	s.Wing = r.wing(s.Game, s.Side)
	contact, _ := r.number(colContact)
	tip, _ := r.number(colTip)
	spin, _ := r.number(colSpin)
	s.Contact, s.Tip, s.Spin = table.Inches(contact), drill.Fraction(tip), drill.Fraction(spin)
	return t
}

func (r *reader) neededNumber(c column) float64 {
	if r.cell(c) == "" {
		r.object(c, "where the cue ball was placed is needed, in inches")
	}
	v, _ := r.number(c)
	return v
}

// kind makes the table of the three columns that say what kind it is.
func (r *reader) kind() table.Kind {
	k := table.NineFoot()
	if r.cell(colTableFt) == "" && r.cell(colCornerIn) == "" && r.cell(colSideIn) == "" {
		return k
	}
	if feet, given := r.whole(colTableFt, "7, 8 or 9 is accepted"); given {
		if made, err := table.Make(feet, 0, 0); err != nil {
			r.object(colTableFt, "7, 8 or 9 is accepted")
		} else {
			k = made
		}
	}
	k.CornerMouth = r.mouth(colCornerIn, k.CornerMouth)
	k.SideMouth = r.mouth(colSideIn, k.SideMouth)
	return k
}

func (r *reader) mouth(c column, usual table.Inches) table.Inches {
	v, given := r.number(c)
	if !given {
		return usual
	}
	mouth := table.Inches(v)
	if !(mouth >= table.TightestMouth && mouth <= table.WidestMouth) {
		r.object(c, fmt.Sprintf("a pocket mouth from %s to %s inches is accepted", table.TightestMouth, table.WidestMouth))
		return usual
	}
	return mouth
}

// rackCell is a cell of the rack column and what it must be read with.
type rackCell struct {
	game  rack.Game
	side  table.Side
	balls string
}

// order reads the rack, each different cell once.
func (r *reader) order(g rack.Game, side table.Side) rack.Order {
	key := rackCell{g, side, r.cell(colRack)}
	if order, known := r.orders[key]; known {
		return order
	}
	order := g.Practice(side)
	if key.balls != "" {
		var err error
		if order, err = rack.ParseOrder(g, key.balls); err != nil {
			r.object(colRack, fmt.Sprintf("%v; balls in slot order such as %s are accepted", err, g.Practice(side)))
			return order
		}
		key.balls = order.String()
	}
	r.orders[key] = order
	return order
}

func (r *reader) spot(g rack.Game) rack.Spot {
	cell := r.cell(colSpot)
	if cell == "" {
		return g.Spots()[0]
	}
	var accepted []string
	for _, spot := range g.Spots() {
		if string(spot) == cell {
			return spot
		}
		accepted = append(accepted, string(spot))
	}
	r.object(colSpot, fmt.Sprintf("for %s %s is accepted", g.Words(), strings.Join(accepted, " or ")))
	return g.Spots()[0]
}

func (r *reader) wing(g rack.Game, side table.Side) rack.Slot {
	left, right := g.Wing(table.Left), g.Wing(table.Right)
	switch r.cell(colWing) {
	case "":
		return g.Wing(side)
	case string(left):
		return left
	case string(right):
		return right
	}
	r.object(colWing, fmt.Sprintf("%s or %s is accepted", left, right))
	return left
}

// difference is a column in which two rows of a set disagree.
type difference struct {
	column    column
	got, want string
}

// differences lists where t differs from what the set's first row said.
func (t told) differences(first told) []difference {
	if t == first {
		return nil
	}
	a, b := t.setup, first.setup
	var found []difference
	for _, d := range []difference{
		{colTable, strconv.Quote(t.table), strconv.Quote(first.table)},
		{colTableFt, strconv.Itoa(t.kind.Feet), strconv.Itoa(first.kind.Feet)},
		{colCornerIn, t.kind.CornerMouth.String(), first.kind.CornerMouth.String()},
		{colSideIn, t.kind.SideMouth.String(), first.kind.SideMouth.String()},
		{colGame, string(a.Game), string(b.Game)},
		{colSide, string(a.Side), string(b.Side)},
		{colRack, a.Order.String(), b.Order.String()},
		{colSpot, string(a.Spot), string(b.Spot)},
		{colWing, string(a.Wing), string(b.Wing)},
		{colCueX, a.Cue.X.String(), b.Cue.X.String()},
		{colCueY, a.Cue.Y.String(), b.Cue.Y.String()},
		{colContact, a.Contact.String(), b.Contact.String()},
		{colTip, plain(float64(a.Tip)), plain(float64(b.Tip))},
		{colSpin, plain(float64(a.Spin)), plain(float64(b.Spin))},
	} {
		if d.got != d.want {
			found = append(found, d)
		}
	}
	return found
}

// plain writes the shortest decimal that reads back as v.
func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
