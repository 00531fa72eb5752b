package breaklog

import (
	"fmt"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// pendingSets is the sets found so far.
type pendingSets struct {
	byKey map[setKey]*pendingSet
	sets  []*pendingSet // by first row
}

type setKey struct{ student, set string }

// pendingSet is a set whose rows are still coming in, in any order.
type pendingSet struct {
	key        setKey
	conditions setConditions
	breaks     []drill.Break
	lines      []int32 // of each break's row
	plan       drill.SetPlan
	askedSpeed *table.Mph // nil when it is not known
}

// readRow takes the row that was just read.
func (r *logReader) readRow() {
	if got := len(r.record); got != r.width {
		r.addProblem(Problem{Line: r.lineNumber(),
			Says: fmt.Sprintf("this row has %d cells, the header has %d", got, r.width)})
		return
	}
	before := len(r.problems)
	key := setKey{r.readNeededName(colStudent), r.readNeededName(colSet)}
	t, b := r.readConditions(), r.readBreak()
	if len(r.problems) > before {
		return
	}
	r.rejectFields(b.Check(t.setup, t.kind))
	set := r.findOrAddSet(key, t)
	for _, d := range t.listDifferences(set.conditions) {
		r.rejectCell(d.column, fmt.Sprintf("this row of set %s has %s, but its first row, line %d, has %s; one set is one setup",
			key.set, d.got, set.lines[0], d.want))
	}
	set.addBreak(b, int32(r.lineNumber()))
}

// findOrAddSet finds a set or begins it.
func (r *logReader) findOrAddSet(key setKey, t setConditions) *pendingSet {
	set, known := r.byKey[key]
	if !known {
		r.rejectFields(t.setup.CheckPossible(t.kind))
		t.plan = t.plan.clone()
		set = &pendingSet{key: key, conditions: t}
		set.plan, set.askedSpeed = r.readPlan(t)
		r.byKey[key] = set
		r.sets = append(r.sets, set)
	}
	return set
}

// addBreak makes room for the usual numbers of breaks exactly, so that a log of
// many sets leaves little of it unused.
func (s *pendingSet) addBreak(b drill.Break, line int32) {
	if n := len(s.breaks); n == cap(s.breaks) {
		room := 2 * n
		for _, usual := range []int{1, drill.UsualBreaks / 2, drill.UsualBreaks} {
			if n < usual {
				room = usual
				break
			}
		}
		s.breaks = append(make([]drill.Break, 0, room), s.breaks...)
		s.lines = append(make([]int32, 0, room), s.lines...)
	}
	s.breaks = append(s.breaks, b)
	s.lines = append(s.lines, line)
}

// readName reads a cell that names a student, a set or a table. Each name is kept
// once, however many rows have it.
func (r *logReader) readName(c logColumn) string {
	cell := r.cellText(c)
	if cell == "" {
		return ""
	}
	if name, known := r.names[cell]; known {
		return name
	}
	cell = strings.Clone(cell)
	name := unescapeFormula(cell)
	if says := checkName(name); says != "" {
		r.rejectCell(c, says)
	}
	r.names[cell] = name
	return name
}

func (r *logReader) readNeededName(c logColumn) string {
	if r.cellText(c) == "" {
		r.rejectCell(c, "every row needs a "+c.String())
	}
	return r.readName(c)
}
