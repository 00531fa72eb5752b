package breaklog

import (
	"bytes"
	"strconv"

	"breakwright/internal/drill"
)

const lineEnd = "\r\n"

// sharedCells are the cells that all rows of a set share, each with its comma: from
// game to spin, and those of the plan.
type sharedCells struct{ conditions, plan []byte }

func writeSharedCells(set drill.Set) sharedCells {
	return sharedCells{appendConditions(nil, set), appendPlan(nil, set)}
}

// endRow ends a row whose cells each have their comma.
func endRow(row []byte) []byte { return append(row[:len(row)-1], lineEnd...) }

// appendPlan appends the cells of the plan, each with its comma.
func appendPlan(row []byte, set drill.Set) []byte {
	plan := writePlan(set)
	for _, cell := range plan.columns() {
		row = appendText(row, *cell.text)
	}
	return row
}

// appendConditions appends the cells from game to spin, each with its comma.
func appendConditions(row []byte, set drill.Set) []byte {
	s, k := set.Setup, set.Kind
	row = appendText(row, string(s.Game))
	row = appendText(row, escapeFormula(set.Table))
	row = appendText(row, k.Size())
	row = appendText(row, k.CornerMouth.String())
	row = appendText(row, k.SideMouth.String())
	row = appendText(row, string(s.Side))
	row = appendText(row, s.Order.String())
	row = appendText(row, string(s.Spot))
	row = appendText(row, string(s.Wing))
	for _, v := range []float64{float64(s.Cue.X), float64(s.Cue.Y), float64(s.Contact), float64(s.Tip), float64(s.Spin)} {
		row = append(appendDecimal(row, v), ',')
	}
	return row
}

func appendSeparator(row []byte, i int) []byte {
	if i > 0 {
		row = append(row, ';')
	}
	return row
}

func appendDecimal(row []byte, v float64) []byte { return strconv.AppendFloat(row, v+0, 'f', -1, 64) }

// appendText appends a cell and its comma, in quote marks where RFC 4180 wants
// them and around text with spaces at its ends.
func appendText(row []byte, text string) []byte {
	from := len(row)
	row = append(row, text...)
	cell := row[from:]
	if len(cell) == 0 || !bytes.ContainsAny(cell, "\",\r\n") && cell[0] != ' ' && cell[len(cell)-1] != ' ' {
		return append(row, ',')
	}
	row = append(row[:from], '"')
	for i := range len(text) {
		if text[i] == '"' {
			row = append(row, '"')
		}
		row = append(row, text[i])
	}
	return append(row, '"', ',')
}
