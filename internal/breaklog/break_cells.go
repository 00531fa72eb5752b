package breaklog

import (
	"strconv"
	"strings"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// readBreak reads what a row says of its break.
func (r *logReader) readBreak() drill.Break {
	var b drill.Break
	number, given := r.readWhole(colBreak, numberingRule)
	if !given && r.cellText(colBreak) == "" {
		r.rejectCell(colBreak, numberingRule)
	}
	b.Number = number
	b.At = r.readTime(colAt)
	b.Speed = r.readSpeed()
	b.Pocketed = r.readPocketed()
	b.Cue = r.readCueEnd()
	b.Off = r.readOffTable()
	b.WingMiss = readWord(r, colWingMiss, wingMissWords)
	b.CuePath = readWord(r, colCuePath, cuePathWords)
	b.Rest = r.readRests()
	b.Rails = r.readCount(colRails)
	b.PastString = r.readCount(colPastString)
	b.Shot = readWord(r, colShot, shotWords)
	b.RanOut = readWord(r, colRanOut, ranOutWords)
	b.Racked = readWord(r, colRacked, rackedWords)
	b.Note = r.readNote()
	return b
}

const numberingRule = "breaks are numbered 1, 2, 3 and so on within the set"

// Years in which a break is believed to have been played; the zero time stands
// for "not observed".
const firstYear, lastYear = 1900, 2999

func (r *logReader) readTime(c logColumn) time.Time {
	cell := r.cellText(c)
	if cell == "" {
		return time.Time{}
	}
	at, err := time.Parse(time.RFC3339, cell)
	at = at.UTC()
	if err != nil || !isBelievedTime(at) {
		r.rejectCell(c, "a time with its zone such as 2026-03-02T18:05:00Z or 2026-03-02T19:05:00+01:00 is accepted")
		return time.Time{}
	}
	return at
}

func isBelievedTime(at time.Time) bool { return at.Year() >= firstYear && at.Year() <= lastYear }

func (r *logReader) readSpeed() table.Mph {
	v, given := r.readNumber(colSpeed)
	if given && !(v > 0 && v <= float64(drill.FastestMeasured)) {
		r.rejectCell(colSpeed, "a speed above 0 and up to "+drill.FastestMeasured.String()+" mph is accepted; leave it empty when it was not measured")
		return 0
	}
	return table.Mph(v)
}

func (r *logReader) readCount(c logColumn) *int {
	n, given := r.readWhole(c, "a number of balls from 0 up is accepted")
	if !given {
		return nil
	}
	return drill.ObservedCount(n)
}

// readNote reads the note, the one cell that is kept to the last space.
func (r *logReader) readNote() string {
	cell := unescapeFormula(withLineFeeds(r.rawCell(colNote)))
	if strings.IndexByte(cell, 0) >= 0 {
		r.rejectCell(colNote, "a note is letters, signs and line ends")
		return ""
	}
	return strings.Clone(cell)
}

func (r *logReader) readPocketed() []drill.Pocketed {
	var list []drill.Pocketed
	for part := range r.splitParts(colPocketed) {
		ball, pocket, found := strings.Cut(part, "@")
		b, err := rack.ParseBall(strings.TrimSpace(ball))
		p, known := pocketWords.known[strings.TrimSpace(pocket)]
		if !found || err != nil || !known {
			r.rejectCell(colPocketed, "balls and their pockets such as 7@foot-left;1@side-right are accepted; the pockets are "+pocketWords.accepted)
			return nil
		}
		list = appendTight(list, drill.Pocketed{Ball: b, Pocket: p})
	}
	return list
}

func (r *logReader) readOffTable() []rack.Ball {
	var list []rack.Ball
	for part := range r.splitParts(colOff) {
		b, err := rack.ParseBall(part)
		if err != nil {
			r.rejectCell(colOff, "object balls from 1 to 15 such as 3;7 are accepted")
			return nil
		}
		list = append(list, b)
	}
	return list
}

func (r *logReader) readRests() []drill.RestingBall {
	var list []drill.RestingBall
	for part := range r.splitParts(colRest) {
		ball, at, found := strings.Cut(part, "@")
		b, err := rack.ParseBall(strings.TrimSpace(ball))
		place, ok := parsePlace(at)
		if !found || err != nil || !ok {
			r.rejectCell(colRest, "balls and their places in inches such as 1@-20,31;2@6,28 are accepted")
			return nil
		}
		list = appendTight(list, drill.RestingBall{Ball: b, Place: place})
	}
	return list
}

func (r *logReader) readCueEnd() drill.CueEnd {
	cell := r.cellText(colCue)
	how, pocket, scratched := strings.Cut(cell, "@")
	switch {
	case cell == "off-table":
		return drill.CueEnd{How: drill.OffTable}
	case scratched && strings.TrimSpace(how) == "scratch":
		if p, known := pocketWords.known[strings.TrimSpace(pocket)]; known {
			return drill.CueEnd{How: drill.Scratched, Scratch: p}
		}
		r.rejectCell(colCue, "a scratch names its pocket, as in scratch@side-right; the pockets are "+pocketWords.accepted)
		return drill.CueEnd{}
	}
	place, ok := parsePlace(cell)
	if !ok {
		r.rejectCell(colCue, "where the cue ball stopped, in inches such as -3.5,41, or scratch@side-right or the like, or off-table is accepted")
		return drill.CueEnd{}
	}
	return drill.CueEnd{How: drill.Stopped, Place: place}
}

func parsePlace(s string) (table.Place, bool) {
	xs, ys, found := strings.Cut(s, ",")
	x, whyX := parseDecimal(strings.TrimSpace(xs))
	y, whyY := parseDecimal(strings.TrimSpace(ys))
	return table.Place{X: table.Inches(x), Y: table.Inches(y)}, found && whyX == "" && whyY == ""
}

// splitParts goes through the ;-separated parts of a cell; an empty cell has none.
func (r *logReader) splitParts(c logColumn) func(yield func(string) bool) {
	return func(yield func(string) bool) {
		rest, more := r.cellText(c), true
		if rest == "" {
			return
		}
		for more {
			var part string
			part, rest, more = strings.Cut(rest, ";")
			if !yield(strings.TrimSpace(part)) {
				return
			}
		}
	}
}

// appendTight appends to a list that is mostly one or two long, without the spare
// room that append would leave in each of a hundred thousand lists.
func appendTight[T any](list []T, item T) []T {
	if len(list) == cap(list) && len(list) < 3 {
		grown := make([]T, len(list), len(list)+1)
		copy(grown, list)
		list = grown
	}
	return append(list, item)
}

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
