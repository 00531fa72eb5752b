package picture

import (
	"strings"

	"breakwright/internal/table"
)

// SquaresView is an empty table ruled into squares, for marking by pen where a
// cue ball stopped. There is as little ink on it as its lines need.
type SquaresView struct {
	ID   string
	Kind table.Kind
	// Columns name the squares from the left rail to the right, Rows from the
	// head rail to the foot; the table is divided evenly.
	Columns, Rows []string
	// Window, when set, is drawn as a broken line.
	Window *table.Window
}

const (
	squareLabel     = 32 // size of the names, in units, and the same in letters
	squareLabelSize = "32"
	squaresOutside  = table.Inches(7.5) // room around the noses
	endLabels       = table.Inches(3.5) // from the noses to the columns' names
	sideLabels      = table.Inches(5.7) // to the rows' names, clear of the side pockets
	squareDescribes = "An empty table ruled into squares, the head end at the bottom. Each column and each row has a name."
)

func (s SquaresView) viewBox() string {
	k, out := s.Kind, squaresOutside
	return strings.Join([]string{formatX(-k.Width()/2 - out), formatY(k.Length() + out), formatX(k.Width() + 2*out), formatX(k.Length() + 2*out)}, " ")
}

func (s SquaresView) columnEdge(i int) table.Inches {
	return -s.Kind.Width()/2 + table.Inches(i)*s.Kind.Width()/table.Inches(len(s.Columns))
}

func (s SquaresView) rowEdge(i int) table.Inches {
	return table.Inches(i) * s.Kind.Length() / table.Inches(len(s.Rows))
}

// ruledLinesPath rules the squares: the edges between them, without the table's own.
func (s SquaresView) ruledLinesPath() string {
	var b strings.Builder
	for i := 1; i < len(s.Columns); i++ {
		b.WriteString("M" + formatPlace(table.Place{X: s.columnEdge(i)}) + "V" + formatY(s.Kind.Length()))
	}
	for i := 1; i < len(s.Rows); i++ {
		b.WriteString("M" + formatPlace(table.Place{X: s.Kind.SideRailX(table.Left), Y: s.rowEdge(i)}) + "H" + formatX(s.Kind.SideRailX(table.Right)))
	}
	return b.String()
}

// tableStringsPath draws head string and the line across the centre, to count from.
func (s SquaresView) tableStringsPath() string {
	left, right := s.Kind.SideRailX(table.Left), s.Kind.SideRailX(table.Right)
	return "M" + formatPlace(table.Place{X: left, Y: s.Kind.HeadString()}) + "H" + formatX(right) +
		"M" + formatPlace(table.Place{X: left, Y: s.Kind.CentreSpot().Y}) + "H" + formatX(right)
}

// placeNames are where the squares' names stand: the columns' at both ends, the
// rows' at both sides.
func (s SquaresView) placeNames() []placedName {
	var all []placedName
	for i, name := range s.Columns {
		x := (s.columnEdge(i) + s.columnEdge(i+1)) / 2
		all = append(all, placedName{name, table.Place{X: x, Y: -endLabels}}, placedName{name, table.Place{X: x, Y: s.Kind.Length() + endLabels}})
	}
	for i, name := range s.Rows {
		y := (s.rowEdge(i) + s.rowEdge(i+1)) / 2
		all = append(all, placedName{name, table.Place{X: s.Kind.SideRailX(table.Left) - sideLabels, Y: y}},
			placedName{name, table.Place{X: s.Kind.SideRailX(table.Right) + sideLabels, Y: y}})
	}
	return all
}

// placedName is a text and where its middle stands.
type placedName struct {
	name string
	at   table.Place
}
