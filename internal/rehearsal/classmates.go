package rehearsal

import (
	"context"
	"slices"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
)

// classmates is what the first two sets of students at one table show of it: those of each, by
// fault and number, and all. The zero classmates is of students who are judged alone.
type classmates struct {
	each [][]advice.ShownByRack
	all  advice.ShownByRack
}

// setsShown is how many sets of each other student count, as on the pages.
const setsShown = 2

// gatherClass has everybody of a class break their first sets.
func (p Options) gatherClass(ctx context.Context, from studentSource) (classmates, error) {
	if p.Table == 0 {
		return classmates{}, nil
	}
	each, err := collectFromStudents(ctx, p, func(fault, student int) advice.ShownByRack {
		s, t, luck := p.drawStudent(from, fault, student)
		adviser := ruleAdviser{forget: forgetters[p.Forget]}
		return advice.Show(adviser.withoutForgotten(firstSets(s, t, luck)))
	})
	all := advice.ShownByRack{}
	for _, shown := range slices.Concat(each...) {
		all.Add(shown)
	}
	return classmates{each, all}, err
}

// firstSets are the sets of a student whom nobody advised yet.
func firstSets(s Student, t *rateCounter, luck uint64) []drill.Set {
	sets := make([]drill.Set, setsShown)
	for n := range sets {
		sets[n] = t.playSet(s, setKey{condition{setup: s.Start}, luck, n})
	}
	return sets
}

// tablesBeside is what the others of the class showed.
func (c classmates) tablesBeside(fault, student int) advice.ShownByRack {
	if c.each == nil {
		return nil
	}
	return c.all.Without(c.each[fault][student])
}
