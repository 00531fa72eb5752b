package shorthand

import (
	"strconv"
	"strings"

	"breakwright/internal/table"
)

// ColumnCount and Along are the squares of a table: half a diamond each way.
const (
	ColumnCount = 8
	RowCount    = 16
)

const columnLetters = "abcdefgh"

// SquareSide returns the length of a square's sides on this kind of table.
func SquareSide(k table.Kind) table.Inches { return k.DiamondSpacing() / 2 }

// SquareCentre returns the place in the middle of a square, and false for a name that no
// square has.
func SquareCentre(square string, k table.Kind) (table.Place, bool) {
	if len(square) < 2 || square[1] < '1' || square[1] > '9' {
		return table.Place{}, false
	}
	column := strings.IndexByte(columnLetters, square[0])
	row, err := strconv.Atoi(square[1:])
	if column < 0 || err != nil || row > RowCount {
		return table.Place{}, false
	}
	half := SquareSide(k) / 2
	return table.Place{
		X: -k.Width()/2 + table.Inches(2*column+1)*half,
		Y: table.Inches(2*row-1) * half,
	}, true
}

// ColumnName and RowName name the i-th column and row, counted from 0.
func ColumnName(i int) string { return columnLetters[i : i+1] }

// RowName: see ColumnName.
func RowName(i int) string { return strconv.Itoa(i + 1) }
