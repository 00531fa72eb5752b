package store

import (
	"context"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// named finds what is kept under the names of sets, in two queries for any
// number of students.
func (i *importer) named(ctx context.Context, sets map[PersonID][]drill.Set) (map[PersonID]map[string]drill.Set, error) {
	there := map[PersonID]map[string]drill.Set{}
	var asked query.ListSetsNamedParams
	for student, group := range sets {
		there[student] = map[string]drill.Set{}
		for _, set := range group {
			asked.StudentIds, asked.Names = append(asked.StudentIds, student.UUID), append(asked.Names, set.Name)
		}
	}
	rows, err := i.ListSetsNamed(ctx, asked)
	if err != nil {
		return nil, err
	}
	breaks, err := i.breaksOf(ctx, each(rows, func(r query.ListSetsNamedRow) uuid.UUID { return r.BreakSet.ID }))
	if err != nil {
		return nil, err
	}
	for _, r := range rows {
		set, err := setOf(r.BreakSet, r.PoolTable, r.Setup)
		if err != nil {
			return nil, err
		}
		set.StudentName, set.Breaks = r.StudentName, breaks[r.BreakSet.ID]
		there[set.Student][set.Name] = set.Seen()
	}
	return there, nil
}

func (i *importer) breaksOf(ctx context.Context, sets []uuid.UUID) (map[uuid.UUID][]Break, error) {
	rows, err := i.ListBreaksNamed(ctx, sets)
	if err != nil {
		return nil, err
	}
	breaks := map[uuid.UUID][]Break{}
	for _, r := range rows {
		b, err := storedBreak(r)
		if err != nil {
			return nil, err
		}
		breaks[r.SetID] = append(breaks[r.SetID], b)
	}
	return breaks, nil
}
