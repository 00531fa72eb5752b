package breaklog

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// Problem says what is wrong in one place of a file and what is accepted there.
type Problem struct {
	// Line counts from 1, the header being line 1 of a usual file.
	Line int
	// Column is the column's name, or empty when the whole row or file is meant.
	Column string
	// Value is what the cell holds, cut short when long.
	Value string
	// Says is a sentence without a full stop.
	Says string
}

// String writes one line: `line 3, column tip, "−0.1": write …`.
func (p Problem) String() string {
	var s strings.Builder
	fmt.Fprintf(&s, "line %d", p.Line)
	if p.Column != "" {
		fmt.Fprintf(&s, ", column %s", p.Column)
		if p.Value == "" {
			s.WriteString(", empty")
		}
	}
	if p.Value != "" {
		fmt.Fprintf(&s, ", %q", p.Value)
	}
	return s.String() + ": " + p.Says
}

// Problems is the error of a file that was not taken: what is wrong with it, by
// line, at most MaxProblems of them.
type Problems []Problem

// MaxProblems is how many problems are collected before reading stops.
const MaxProblems = 20

// Error lists the problems, one a line.
func (p Problems) Error() string {
	lines := make([]string, 0, len(p)+1)
	for _, problem := range p {
		lines = append(lines, problem.String())
	}
	if p.IsFull() {
		lines = append(lines, fmt.Sprintf("after %d problems the rest was not read", MaxProblems))
	}
	return strings.Join(lines, "\n")
}

// IsFull reports whether reading stopped before the end of the file.
func (p Problems) IsFull() bool { return len(p) >= MaxProblems }

// errorOrNil returns nil when there are none, else the problems by line.
func (p Problems) errorOrNil() error {
	if len(p) == 0 {
		return nil
	}
	slices.SortStableFunc(p, func(a, b Problem) int { return cmp.Compare(a.Line, b.Line) })
	return p
}

// longestCell is how much of a cell is repeated in a problem, in bytes.
const longestCell = 60

// shortenCell cuts a cell short between two letters.
func shortenCell(cell string) string {
	if len(cell) <= longestCell {
		return cell
	}
	cut := longestCell
	for cut > 0 && !utf8.RuneStart(cell[cut]) {
		cut--
	}
	return cell[:cut] + "…"
}
