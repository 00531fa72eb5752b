package breaklog

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
)

// Read reads a whole break log. Its sets are grouped by student, as the package
// comment says. What is wrong with the file comes back as Problems, and then no
// set does; any other error is a failure to read. A header without rows is a log
// of no sets.
//
// Everything read is held in memory, about 400 bytes a break: put a limit on
// what strangers may send.
func Read(file io.Reader) ([]drill.Set, error) {
	r, err := newReader(file)
	if err != nil {
		return nil, err
	}
	if r.header() {
		for r.next() {
			r.row()
		}
	}
	if r.failed != nil {
		return nil, fmt.Errorf("read break log: %w", r.failed)
	}
	sets := r.finish()
	if err := r.problems.err(); err != nil {
		return nil, err
	}
	return sets, nil
}

// reader is a file being read, at one row of it.
type reader struct {
	csv    *csv.Reader
	record []string
	// at says where in a row a column stands, -1 when the file has no such
	// column; width is how many cells a row has.
	at    [columns]int
	width int

	problems Problems
	failed   error // to read, which is no fault of the file's text

	names  map[string]string // one copy of each name
	orders map[rackCell]rack.Order
	gathering
}

var (
	byteOrderMark = []byte("\xef\xbb\xbf")
	utf16Marks    = [][]byte{{0xff, 0xfe}, {0xfe, 0xff}}
)

func newReader(file io.Reader) (*reader, error) {
	buffered := bufio.NewReaderSize(file, 64<<10)
	start, err := buffered.Peek(len(byteOrderMark))
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("read break log: %w", err)
	}
	for _, mark := range utf16Marks {
		if bytes.HasPrefix(start, mark) {
			return nil, Problems{{Line: 1, Says: notUTF8}}
		}
	}
	if bytes.Equal(start, byteOrderMark) {
		if _, err := buffered.Discard(len(byteOrderMark)); err != nil {
			return nil, fmt.Errorf("read break log: %w", err)
		}
	}
	r := &reader{csv: csv.NewReader(buffered), names: map[string]string{}, orders: map[rackCell]rack.Order{}}
	r.csv.ReuseRecord = true
	r.csv.FieldsPerRecord = -1 // a row too short is told in our words
	r.gathering.byKey = map[setKey]*gathered{}
	return r, nil
}

const notUTF8 = "the file is not written in UTF-8; save it as “CSV UTF-8”"

// next goes to the next row that has anything in it. It stops at the end, at
// text that is not CSV or not UTF-8, and when there are problems enough.
func (r *reader) next() bool {
	for !r.problems.MayBeMore() {
		record, err := r.csv.Read()
		if err != nil {
			r.stopped(err)
			return false
		}
		r.record = record
		for i, cell := range record {
			if !utf8.ValidString(cell) {
				line, _ := r.csv.FieldPos(i)
				r.note(Problem{Line: line, Value: shown(cell), Says: notUTF8})
				return false
			}
		}
		if !blank(record) {
			return true
		}
	}
	return false
}

func (r *reader) stopped(err error) {
	var badCSV *csv.ParseError
	switch {
	case errors.Is(err, io.EOF):
	case errors.As(err, &badCSV):
		r.note(Problem{Line: badCSV.Line,
			Says: "a cell with a quote mark in it is put in quote marks, and each one inside it is doubled; the rest was not read"})
	default:
		r.failed = err
	}
}

func blank(record []string) bool {
	for _, cell := range record {
		if strings.TrimSpace(cell) != "" {
			return false
		}
	}
	return true
}

// cell gives what the row holds in a column, without spaces around it; empty
// when the file has no such column.
func (r *reader) cell(c column) string { return strings.TrimSpace(r.raw(c)) }

func (r *reader) raw(c column) string {
	if at := r.at[c]; at >= 0 && at < len(r.record) {
		return r.record[at]
	}
	return ""
}

// note keeps a problem while there is room.
func (r *reader) note(p Problem) {
	if !r.problems.MayBeMore() {
		r.problems = append(r.problems, p)
	}
}

// object notes what is wrong with the row's cell in a column.
func (r *reader) object(c column, says string) {
	line := r.line()
	if at := r.at[c]; at >= 0 && at < len(r.record) {
		line, _ = r.csv.FieldPos(at)
	}
	r.note(Problem{Line: line, Column: c.String(), Value: shown(r.cell(c)), Says: says})
}

// objectAll notes what package drill objects to, whose fields are our columns.
func (r *reader) objectAll(err error) {
	var found drill.Problems
	if !errors.As(err, &found) {
		return
	}
	for _, p := range found {
		if c, ok := columnByName[p.Field]; ok {
			r.object(c, p.Says)
			continue
		}
		r.note(Problem{Line: r.line(), Says: p.Field + ": " + p.Says})
	}
}

// line is where the row begins.
func (r *reader) line() int {
	line, _ := r.csv.FieldPos(0)
	return line
}
