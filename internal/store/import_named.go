package store

import (
	"context"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// findNamedSets finds what is kept under the names of sets, in two queries for any
// number of students.
func (i *importer) findNamedSets(ctx context.Context, sets map[PersonID][]drill.Set) (map[PersonID]map[string]drill.Set, error) {
	there := map[PersonID]map[string]drill.Set{}
	var asked query.ListSetsByNameParams
	for student, group := range sets {
		there[student] = map[string]drill.Set{}
		for _, set := range group {
			asked.StudentIds, asked.Names = append(asked.StudentIds, student.UUID), append(asked.Names, set.Name)
		}
	}
	rows, err := i.ListSetsByName(ctx, asked)
	if err != nil {
		return nil, err
	}
	breaks, err := i.loadKeptBreaks(ctx, mapRows(rows, func(r query.ListSetsByNameRow) uuid.UUID { return r.BreakSet.ID }))
	if err != nil {
		return nil, err
	}
	for _, r := range rows {
		set, err := setFromRow(r.BreakSet, r.PoolTable, r.Setup)
		if err != nil {
			return nil, err
		}
		set.StudentName, set.Breaks = r.StudentName, breaks[r.BreakSet.ID]
		there[set.Student][set.Name] = set.DrillSet()
	}
	return there, nil
}

func (i *importer) loadKeptBreaks(ctx context.Context, sets []uuid.UUID) (map[uuid.UUID][]Break, error) {
	rows, err := i.ListImportedBreaks(ctx, sets)
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
