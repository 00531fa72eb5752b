package breaklog

import (
	"cmp"
	"fmt"
	"slices"

	"breakwright/internal/drill"
)

// buildSets makes sets of what was gathered. Numbers are looked at only when every
// row was good: a row that was refused would look like a gap.
func (r *logReader) buildSets() []drill.Set {
	if len(r.problems) > 0 {
		return nil
	}
	students := map[string][]*pendingSet{}
	var names []string
	for _, set := range r.sets {
		if r.problems.IsFull() {
			return nil
		}
		r.sortBreaks(set)
		if students[set.key.student] == nil {
			names = append(names, set.key.student)
		}
		students[set.key.student] = append(students[set.key.student], set)
	}
	sets := make([]drill.Set, 0, len(r.sets))
	for _, name := range names {
		first := len(sets)
		for _, set := range students[name] {
			sets = append(sets, set.toSet())
		}
		sortByTime(sets[first:])
	}
	return sets
}

func (s *pendingSet) toSet() drill.Set {
	setup := s.conditions.setup
	if s.askedSpeed != nil {
		setup.Speed = *s.askedSpeed
	} else {
		setup.Speed, _ = drill.MedianSpeed(s.breaks)
	}
	return drill.Set{Student: s.key.student, Name: s.key.set, Table: s.conditions.table, Kind: s.conditions.kind, Setup: setup, Breaks: s.breaks, Plan: s.plan}
}

// sortBreaks sorts a set's breaks by number and objects to numbers that are
// missing or there twice.
func (r *logReader) sortBreaks(s *pendingSet) {
	inOrder := true
	for i, b := range s.breaks {
		inOrder = inOrder && b.Number == i+1
	}
	if inOrder {
		return
	}
	order := make([]int, len(s.breaks))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(s.breaks[a].Number, s.breaks[b].Number) })
	sorted := make([]drill.Break, len(order))
	lines := make([]int32, len(order))
	for to, from := range order {
		sorted[to], lines[to] = s.breaks[from], s.lines[from]
	}
	s.breaks, s.lines = sorted, lines
	for i, b := range sorted {
		switch {
		case i > 0 && b.Number == sorted[i-1].Number:
			r.addNumberProblem(s, i, fmt.Sprintf("set %s of %s has this break already, on line %d", s.key.set, s.key.student, lines[i-1]))
			return
		case b.Number > i+1:
			r.addNumberProblem(s, i, fmt.Sprintf("set %s of %s has no break %d; %s", s.key.set, s.key.student, i+1, numberingRule))
			return
		}
	}
}

func (r *logReader) addNumberProblem(s *pendingSet, i int, says string) {
	r.addProblem(Problem{Line: int(s.lines[i]), Column: colBreak.String(),
		Value: fmt.Sprint(s.breaks[i].Number), Says: says})
}

// sortByTime sorts the sets that have a time among the places they hold; the others
// stay where the file has them.
func sortByTime(sets []drill.Set) {
	var timed []drill.Set
	for _, set := range sets {
		if !set.FirstBreakTime().IsZero() {
			timed = append(timed, set)
		}
	}
	slices.SortStableFunc(timed, func(a, b drill.Set) int { return a.FirstBreakTime().Compare(b.FirstBreakTime()) })
	for i, set := range sets {
		if !set.FirstBreakTime().IsZero() {
			sets[i], timed = timed[0], timed[1:]
		}
	}
}
