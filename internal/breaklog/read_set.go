package breaklog

import (
	"fmt"
	"strings"

	"breakwright/internal/drill"
)

// gathering is the sets found so far.
type gathering struct {
	byKey map[setKey]*gathered
	sets  []*gathered // by first row
}

type setKey struct{ student, set string }

// gathered is a set whose rows are still coming in, in any order.
type gathered struct {
	key    setKey
	told   told
	breaks []drill.Break
	lines  []int32 // of each break's row
}

// row takes the row that was just read.
func (r *reader) row() {
	if got := len(r.record); got != r.width {
		r.note(Problem{Line: r.line(),
			Says: fmt.Sprintf("this row has %d cells, the header has %d", got, r.width)})
		return
	}
	before := len(r.problems)
	key := setKey{r.neededName(colStudent), r.neededName(colSet)}
	t, b := r.told(), r.seen()
	if len(r.problems) > before {
		return
	}
	r.objectAll(b.Check(t.setup, t.kind))
	set := r.setFor(key, t)
	for _, d := range t.differences(set.told) {
		r.object(d.column, fmt.Sprintf("this row of set %s has %s, but its first row, line %d, has %s; one set is one setup",
			key.set, d.got, set.lines[0], d.want))
	}
	set.add(b, int32(r.line()))
}

// setFor finds a set or begins it.
func (r *reader) setFor(key setKey, t told) *gathered {
	set, known := r.byKey[key]
	if !known {
		r.objectAll(t.setup.Possible(t.kind))
		set = &gathered{key: key, told: t}
		r.byKey[key] = set
		r.sets = append(r.sets, set)
	}
	return set
}

// add makes room for the usual numbers of breaks exactly, so that a log of
// many sets leaves little of it unused.
func (s *gathered) add(b drill.Break, line int32) {
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

// name reads a cell that names a student, a set or a table. Each name is kept
// once, however many rows have it.
func (r *reader) name(c column) string {
	cell := r.cell(c)
	if cell == "" {
		return ""
	}
	if name, known := r.names[cell]; known {
		return name
	}
	cell = strings.Clone(cell)
	name := unguard(cell)
	if says := drill.CheckName(name); says != "" {
		r.object(c, says)
	}
	r.names[cell] = name
	return name
}

func (r *reader) neededName(c column) string {
	if r.cell(c) == "" {
		r.object(c, "every row needs a "+c.String())
	}
	return r.name(c)
}
