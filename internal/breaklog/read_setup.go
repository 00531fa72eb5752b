package breaklog

import (
	"fmt"
	"strconv"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// setConditions is what a row says of its set: everything that all rows of a set share.
type setConditions struct {
	table string
	kind  table.Kind
	setup drill.Setup // without its speed
	plan  planCells
}

// conditionColumns are the columns they stand in.
var conditionColumns = func() (all []logColumn) {
	for c := range columnCount {
		if c >= colGame && c <= colSpin || c >= colSpeedAsked {
			all = append(all, c)
		}
	}
	return all
}()

// lastConditions are what the row before said of its set, and the cells in which it did;
// without cells when it did not say it rightly.
type lastConditions struct {
	cells []string
	setConditions
}

// readConditions takes those of the row before when the cells are the same, as in most rows.
func (r *logReader) readConditions() setConditions {
	if r.repeatsConditions() {
		return r.last.setConditions
	}
	before := len(r.problems)
	t := r.readNewConditions()
	r.last = lastConditions{setConditions: t}
	if len(r.problems) == before {
		for _, c := range conditionColumns {
			r.last.cells = append(r.last.cells, r.rawCell(c))
		}
	}
	return t
}

func (r *logReader) repeatsConditions() bool {
	for i, cell := range r.last.cells {
		if cell != r.rawCell(conditionColumns[i]) {
			return false
		}
	}
	return r.last.cells != nil
}

func (r *logReader) readNewConditions() setConditions {
	t := setConditions{table: r.readName(colTable), kind: r.readKind(), plan: r.readPlanCells()}
	s := &t.setup
	s.Game = readWord(r, colGame, gameWords)
	if s.Game == "" {
		s.Game = rack.NineBall
	}
	s.Cue = table.Place{X: table.Inches(r.readNeededNumber(colCueX)), Y: table.Inches(r.readNeededNumber(colCueY))}
	s.Side = readWord(r, colSide, sideWords)
	if s.Side == "" {
		s.Side = table.SideOf(s.Cue.X)
	}
	s.Order = r.readOrder(s.Game, s.Side)
	s.Spot = r.readSpot(s.Game)
	s.Wing = r.readWing(s.Game, s.Side)
	contact, _ := r.readNumber(colContact)
	tip, _ := r.readNumber(colTip)
	spin, _ := r.readNumber(colSpin)
	s.Contact, s.Tip, s.Spin = table.Inches(contact), drill.RadiusFraction(tip), drill.RadiusFraction(spin)
	return t
}

func (r *logReader) readNeededNumber(c logColumn) float64 {
	if r.cellText(c) == "" {
		r.rejectCell(c, "where the cue ball was placed is needed, in inches")
	}
	v, _ := r.readNumber(c)
	return v
}

// readKind makes the table of the three columns that say what kind it is.
func (r *logReader) readKind() table.Kind {
	k := table.NineFoot()
	if r.cellText(colTableFt) == "" && r.cellText(colCornerIn) == "" && r.cellText(colSideIn) == "" {
		return k
	}
	if size := r.cellText(colTableFt); size != "" {
		made, err := table.ParseSize(size)
		if err != nil {
			r.rejectCell(colTableFt, "7, 8, 9, small 7 (38 × 76 in) or small 8 (44 × 88 in) is accepted")
		} else {
			k = made
		}
	}
	k.CornerMouth = r.readMouth(colCornerIn, k.CornerMouth)
	k.SideMouth = r.readMouth(colSideIn, k.SideMouth)
	return k
}

func (r *logReader) readMouth(c logColumn, usual table.Inches) table.Inches {
	v, given := r.readNumber(c)
	if !given {
		return usual
	}
	mouth := table.Inches(v)
	if !(mouth >= table.TightestMouth && mouth <= table.WidestMouth) {
		r.rejectCell(c, fmt.Sprintf("a pocket mouth from %s to %s inches is accepted", table.TightestMouth, table.WidestMouth))
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

// readOrder reads the rack, each different cell once.
func (r *logReader) readOrder(g rack.Game, side table.Side) rack.Order {
	key := rackCell{g, side, r.cellText(colRack)}
	if order, known := r.orders[key]; known {
		return order
	}
	order := g.PracticeOrder(side)
	if key.balls != "" {
		var err error
		if order, err = rack.ParseOrder(g, key.balls); err != nil {
			r.rejectCell(colRack, fmt.Sprintf("%v; balls in slot order such as %s are accepted", err, g.PracticeOrder(side)))
			return order
		}
		key.balls = order.String()
	}
	r.orders[key] = order
	return order
}

func (r *logReader) readSpot(g rack.Game) rack.Spot {
	cell := r.cellText(colSpot)
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
	r.rejectCell(colSpot, fmt.Sprintf("for %s %s is accepted", g.Words(), strings.Join(accepted, " or ")))
	return g.Spots()[0]
}

func (r *logReader) readWing(g rack.Game, side table.Side) rack.Slot {
	left, right := g.WingSlot(table.Left), g.WingSlot(table.Right)
	switch r.cellText(colWing) {
	case "":
		return g.WingSlot(side)
	case string(left):
		return left
	case string(right):
		return right
	}
	r.rejectCell(colWing, fmt.Sprintf("%s or %s is accepted", left, right))
	return left
}

// difference is a column in which two rows of a set disagree.
type difference struct {
	column    logColumn
	got, want string
}

// listDifferences lists where t differs from what the set's first row said.
func (t setConditions) listDifferences(first setConditions) []difference {
	if t == first {
		return nil
	}
	a, b := t.setup, first.setup
	var found []difference
	all := []difference{
		{colTable, strconv.Quote(t.table), strconv.Quote(first.table)},
		{colTableFt, t.kind.Size(), first.kind.Size()},
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
		{colTip, formatDecimal(float64(a.Tip)), formatDecimal(float64(b.Tip))},
		{colSpin, formatDecimal(float64(a.Spin)), formatDecimal(float64(b.Spin))},
	}
	own := t.plan.columns()
	for i, cell := range first.plan.columns() {
		all = append(all, difference{cell.column, strconv.Quote(*own[i].text), strconv.Quote(*cell.text)})
	}
	for _, d := range all {
		if d.got != d.want {
			found = append(found, d)
		}
	}
	return found
}

// formatDecimal writes the shortest decimal that reads back as v.
func formatDecimal(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
