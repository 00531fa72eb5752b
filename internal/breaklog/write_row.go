package breaklog

import (
	"bytes"
	"strconv"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/table"
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

// appendBreak appends the cells of a break, each with its comma: what is its own
// goes around the cells that all rows of the set share.
func appendBreak(row []byte, set drill.Set, shared sharedCells, b drill.Break) []byte {
	row = appendText(row, escapeFormula(set.Student))
	row = appendText(row, escapeFormula(set.Name))
	row = append(strconv.AppendInt(row, int64(b.Number), 10), ',')
	if !b.At.IsZero() {
		row = b.At.UTC().AppendFormat(row, time.RFC3339Nano)
	}
	row = append(row, ',')
	row = append(row, shared.conditions...)
	if b.Speed != 0 {
		row = appendDecimal(row, float64(b.Speed))
	}
	row = append(row, ',')
	row = appendBalls(row, b)
	row = appendText(row, string(b.Shot))
	row = appendText(row, string(b.RanOut))
	row = appendText(row, string(b.Racked))
	row = appendText(row, escapeFormula(withLineFeeds(b.Note)))
	return append(row, shared.plan...)
}

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

// appendBalls appends the cells from pocketed to past_string.
func appendBalls(row []byte, b drill.Break) []byte {
	for i, p := range b.Pocketed {
		row = append(strconv.AppendInt(appendSeparator(row, i), int64(p.Ball), 10), '@')
		row = append(row, p.Pocket...)
	}
	row = append(row, ',')
	row = append(appendCueEnd(row, b.Cue), ',')
	for i, ball := range b.Off {
		row = strconv.AppendInt(appendSeparator(row, i), int64(ball), 10)
	}
	row = append(row, ',')
	row = appendText(row, string(b.WingMiss))
	row = appendText(row, string(b.CuePath))
	if len(b.Rest) > 0 {
		row = append(row, '"') // places have commas in them
		for i, rest := range b.Rest {
			row = append(strconv.AppendInt(appendSeparator(row, i), int64(rest.Ball), 10), '@')
			row = appendPlace(row, rest.Place)
		}
		row = append(row, '"')
	}
	row = append(row, ',')
	row = appendCount(row, b.Rails)
	return appendCount(row, b.PastString)
}

func appendCueEnd(row []byte, end drill.CueEnd) []byte {
	switch end.How {
	case drill.Scratched:
		return append(append(row, "scratch@"...), end.Scratch...)
	case drill.OffTable:
		return append(row, "off-table"...)
	}
	return append(appendPlace(append(row, '"'), end.Place), '"')
}

func appendPlace(row []byte, p table.Place) []byte {
	row = append(appendDecimal(row, float64(p.X)), ',')
	return appendDecimal(row, float64(p.Y))
}

func appendCount(row []byte, n *int) []byte {
	if n != nil {
		row = strconv.AppendInt(row, int64(*n), 10)
	}
	return append(row, ',')
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
