package breaklog

import (
	"fmt"
	"strings"
)

// readHeader reads the names of the columns and reports whether rows may follow.
func (r *logReader) readHeader() bool {
	for c := range r.columnIndex {
		r.columnIndex[c] = -1
	}
	if !r.nextRow() {
		if len(r.problems) == 0 && r.failed == nil {
			r.addHeaderProblem("", "the file is empty; it begins with a row of column names")
		}
		return false
	}
	if says := explainSeparator(r.record); says != "" {
		r.addHeaderProblem("", says)
		return false
	}
	r.width = len(r.record)
	for i, cell := range r.record {
		r.readHeaderCell(i, strings.TrimSpace(cell))
	}
	for _, c := range neededColumns {
		if r.columnIndex[c] < 0 {
			r.addHeaderProblem("", fmt.Sprintf("the column %s is missing", c))
		}
	}
	return len(r.problems) == 0
}

func (r *logReader) readHeaderCell(i int, name string) {
	c, known := columnByName[name]
	_, inSmallLetters := columnByName[strings.ToLower(name)]
	switch {
	case name == "":
		r.addHeaderProblem("", fmt.Sprintf("column %d has no name", i+1))
	case !known && inSmallLetters:
		r.addHeaderProblem(name, "column names are written in small letters: "+strings.ToLower(name))
	case !known:
		r.addHeaderProblem(name, "no such column; there are "+strings.Join(columnNames[:], ", "))
	case r.columnIndex[c] >= 0:
		r.addHeaderProblem(name, "the column is there twice")
	default:
		r.columnIndex[c] = i
	}
}

func (r *logReader) addHeaderProblem(value, says string) {
	line := 1
	if len(r.record) > 0 {
		line = r.lineNumber()
	}
	r.addProblem(Problem{Line: line, Value: shortenCell(value), Says: says})
}

// explainSeparator knows a header whose columns are not separated by commas.
func explainSeparator(record []string) string {
	if len(record) != 1 {
		return ""
	}
	for separator, word := range map[string]string{";": "semicolons", "\t": "tabs"} {
		if strings.Contains(record[0], separator) {
			return "the columns are separated by " + word + "; save the file with commas between them"
		}
	}
	return ""
}
