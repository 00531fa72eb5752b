package store

import (
	"context"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// tableKey is what tells tables of a break log apart.
type tableKey struct {
	label string
	kind  table.Kind
}

// loadKnownNames learns which students and tables there are.
func (i *importer) loadKnownNames(ctx context.Context, sets []drill.Set) error {
	labels, err := i.labelStudents(ctx)
	if err != nil {
		return err
	}
	i.students = map[string]PersonID{}
	for id, label := range labels {
		i.students[label] = id
	}
	tables, err := i.Queries.ListTables(ctx, bool(WithArchived))
	if err != nil {
		return err
	}
	i.tables, i.activeLabels = map[tableKey]Table{}, map[string]bool{}
	for _, t := range mapRows(tables, tableFromRow) {
		key := tableKey{t.Label(), t.Kind}
		if there, known := i.tables[key]; !known || there.Archived {
			i.tables[key] = t
		}
		i.activeLabels[key.label] = i.activeLabels[key.label] || !t.Archived
	}
	i.newest = newestKinds(sets)
	return nil
}

// newestKinds finds which of several kinds of table under one name was broken
// on last: that one is in use, the others were before it.
func newestKinds(sets []drill.Set) map[string]tableKey {
	newest := map[string]tableKey{}
	last := map[string]drill.Set{}
	for _, set := range sets {
		label := tableLabel(set)
		if before, known := last[label]; known && set.FirstBreakTime().Before(before.FirstBreakTime()) {
			continue
		}
		last[label] = set
		newest[label] = tableKey{label, set.Kind}
	}
	return newest
}

func (i *importer) findOrAddTable(ctx context.Context, set drill.Set) (TableID, error) {
	key := tableKey{tableLabel(set), set.Kind}
	if there, known := i.tables[key]; known {
		return there.ID, nil
	}
	made := Table{
		ID: NewID[TableID](), Name: key.label, Kind: set.Kind,
		Archived: i.activeLabels[key.label] || i.newest[key.label] != key,
	}
	if err := i.insertTable(ctx, made); err != nil {
		return TableID{}, err
	}
	i.tables[key] = made
	i.result.Tables = append(i.result.Tables, made)
	return made.ID, nil
}

// findOrAddStudent finds the student of the sets or makes them, breaking from the
// side of their latest set.
func (i *importer) findOrAddStudent(ctx context.Context, sets []drill.Set) (PersonID, error) {
	name := sets[0].Student
	if id, known := i.students[name]; known {
		return id, nil
	}
	made, err := i.addStudent(ctx, NewID[PersonID](), NewStudent{Name: name, Side: sets[len(sets)-1].Setup.Side}, ClassID{})
	if err != nil {
		return PersonID{}, err
	}
	i.students[name] = made.ID
	i.result.Students = append(i.result.Students, made)
	return made.ID, nil
}
