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
	r, err := newLogReader(file)
	if err != nil {
		return nil, err
	}
	if r.readHeader() {
		for r.nextRow() {
			r.readRow()
		}
	}
	if r.failed != nil {
		return nil, fmt.Errorf("read break log: %w", r.failed)
	}
	sets := r.buildSets()
	if err := r.problems.errorOrNil(); err != nil {
		return nil, err
	}
	return sets, nil
}

// logReader is a file being read, at one row of it.
type logReader struct {
	csv    *csv.Reader
	bound  *boundedRows
	record []string
	// at says where in a row a column stands, -1 when the file has no such
	// column; width is how many cells a row has.
	columnIndex [columnCount]int
	width       int

	problems Problems
	failed   error // to read, which is no fault of the file's text

	names  map[string]string // one copy of each name
	orders map[rackCell]rack.Order
	last   lastConditions
	pendingSets
}

var (
	byteOrderMark = []byte("\xef\xbb\xbf")
	utf16Marks    = [][]byte{{0xff, 0xfe}, {0xfe, 0xff}}
)

func newLogReader(file io.Reader) (*logReader, error) {
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
	bound := &boundedRows{file: buffered}
	r := &logReader{csv: csv.NewReader(bound), bound: bound, names: map[string]string{}, orders: map[rackCell]rack.Order{}}
	r.csv.ReuseRecord = true
	r.csv.FieldsPerRecord = -1 // a row too short is told in our words
	r.pendingSets.byKey = map[setKey]*pendingSet{}
	return r, nil
}

const notUTF8 = "the file is not written in UTF-8; save it as “CSV UTF-8”"

// nextRow goes to the next row that has anything in it. It stops at the end, at
// text that is not CSV or not UTF-8, and when there are problems enough.
func (r *logReader) nextRow() bool {
	for !r.problems.IsFull() {
		record, err := r.csv.Read()
		if err != nil {
			r.noteReadError(err)
			return false
		}
		r.record = record
		for i, cell := range record {
			if !utf8.ValidString(cell) {
				line, _ := r.csv.FieldPos(i)
				r.addProblem(Problem{Line: line, Value: shortenCell(cell), Says: notUTF8})
				return false
			}
		}
		if !isBlankRow(record) {
			return true
		}
	}
	return false
}

func (r *logReader) noteReadError(err error) {
	var badCSV *csv.ParseError
	switch {
	case errors.Is(err, io.EOF):
	case errors.Is(err, errLongRow):
		r.addProblem(Problem{Line: r.bound.rows + 1, Says: longRow})
	case errors.As(err, &badCSV):
		r.addProblem(Problem{Line: badCSV.Line,
			Says: "a cell with a quote mark in it is put in quote marks, and each one inside it is doubled; the rest was not read"})
	default:
		r.failed = err
	}
}

func isBlankRow(record []string) bool {
	for _, cell := range record {
		if strings.TrimSpace(cell) != "" {
			return false
		}
	}
	return true
}

// cellText returns what the row holds in a column, without spaces around it; empty
// when the file has no such column.
func (r *logReader) cellText(c logColumn) string { return strings.TrimSpace(r.rawCell(c)) }

func (r *logReader) rawCell(c logColumn) string {
	if at := r.columnIndex[c]; at >= 0 && at < len(r.record) {
		return r.record[at]
	}
	return ""
}

// addProblem keeps a problem while there is room.
func (r *logReader) addProblem(p Problem) {
	if !r.problems.IsFull() {
		r.problems = append(r.problems, p)
	}
}

// rejectCell notes what is wrong with the row's cell in a column.
func (r *logReader) rejectCell(c logColumn, says string) {
	line := r.lineNumber()
	if at := r.columnIndex[c]; at >= 0 && at < len(r.record) {
		line, _ = r.csv.FieldPos(at)
	}
	r.addProblem(Problem{Line: line, Column: c.String(), Value: shortenCell(r.cellText(c)), Says: says})
}

// rejectFields notes what package drill objects to, whose fields are our columns.
func (r *logReader) rejectFields(err error) {
	var found drill.Problems
	if !errors.As(err, &found) {
		return
	}
	for _, p := range found {
		if c, ok := columnByName[p.Field]; ok {
			r.rejectCell(c, p.Message)
			continue
		}
		r.addProblem(Problem{Line: r.lineNumber(), Says: p.Field + ": " + p.Message})
	}
}

// lineNumber is where the row begins.
func (r *logReader) lineNumber() int {
	line, _ := r.csv.FieldPos(0)
	return line
}
