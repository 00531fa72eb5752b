package breaklog

import (
	"fmt"
	"strings"
)

// header reads the names of the columns and says whether rows may follow.
func (r *reader) header() bool {
	for c := range r.at {
		r.at[c] = -1
	}
	if !r.next() {
		if len(r.problems) == 0 && r.failed == nil {
			r.headerProblem("", "the file is empty; it begins with a row of column names")
		}
		return false
	}
	if says := otherSeparator(r.record); says != "" {
		r.headerProblem("", says)
		return false
	}
	r.width = len(r.record)
	for i, cell := range r.record {
		r.headerCell(i, strings.TrimSpace(cell))
	}
	for _, c := range needed {
		if r.at[c] < 0 {
			r.headerProblem("", fmt.Sprintf("the column %s is missing", c))
		}
	}
	return len(r.problems) == 0
}

func (r *reader) headerCell(i int, name string) {
	c, known := columnByName[name]
	_, inSmallLetters := columnByName[strings.ToLower(name)]
	switch {
	case name == "":
		r.headerProblem("", fmt.Sprintf("column %d has no name", i+1))
	case !known && inSmallLetters:
		r.headerProblem(name, "column names are written in small letters: "+strings.ToLower(name))
	case !known:
		r.headerProblem(name, "no such column; there are "+strings.Join(columnNames[:], ", "))
	case r.at[c] >= 0:
		r.headerProblem(name, "the column is there twice")
	default:
		r.at[c] = i
	}
}

func (r *reader) headerProblem(value, says string) {
	line := 1
	if len(r.record) > 0 {
		line = r.line()
	}
	r.note(Problem{Line: line, Value: shown(value), Says: says})
}

// otherSeparator knows a header whose columns are not separated by commas.
func otherSeparator(record []string) string {
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
