package store

import (
	"context"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// labelled is what tells tables of a break log apart.
type labelled struct {
	label string
	kind  table.Kind
}

// prepare learns which students and tables there are.
func (i *importer) prepare(ctx context.Context, sets []drill.Set) error {
	labels, err := i.studentLabels(ctx)
	if err != nil {
		return err
	}
	i.students = map[string]PersonID{}
	for id, label := range labels {
		i.students[label] = id
	}
	tables, err := i.Queries.ListTables(ctx, bool(All))
	if err != nil {
		return err
	}
	i.tables, i.live = map[labelled]Table{}, map[string]bool{}
	for _, t := range each(tables, poolTable) {
		key := labelled{t.Label(), t.Kind}
		if there, known := i.tables[key]; !known || there.Archived {
			i.tables[key] = t
		}
		i.live[key.label] = i.live[key.label] || !t.Archived
	}
	i.newest = newestKinds(sets)
	return nil
}

// newestKinds finds which of several kinds of table under one name was broken
// on last: that one is in use, the others were before it.
func newestKinds(sets []drill.Set) map[string]labelled {
	newest := map[string]labelled{}
	last := map[string]drill.Set{}
	for _, set := range sets {
		label := tableLabel(set)
		if before, known := last[label]; known && set.At().Before(before.At()) {
			continue
		}
		last[label] = set
		newest[label] = labelled{label, set.Kind}
	}
	return newest
}

func (i *importer) tableID(ctx context.Context, set drill.Set) (TableID, error) {
	key := labelled{tableLabel(set), set.Kind}
	if there, known := i.tables[key]; known {
		return there.ID, nil
	}
	made := Table{
		ID: NewID[TableID](), Name: key.label, Kind: set.Kind,
		Archived: i.live[key.label] || i.newest[key.label] != key,
	}
	if err := i.insertTable(ctx, made); err != nil {
		return TableID{}, err
	}
	i.tables[key] = made
	i.live[key.label] = i.live[key.label] || !made.Archived
	i.done.Tables = append(i.done.Tables, made)
	return made.ID, nil
}

// studentID finds the student of the sets or makes them, breaking from the
// side of their latest set.
func (i *importer) studentID(ctx context.Context, sets []drill.Set) (PersonID, error) {
	name := sets[0].Student
	if id, known := i.students[name]; known {
		return id, nil
	}
	made, err := i.addStudent(ctx, NewID[PersonID](), NewStudent{Name: name, Side: sets[len(sets)-1].Setup.Side}, ClassID{})
	if err != nil {
		return PersonID{}, err
	}
	i.students[name] = made.ID
	i.done.Students = append(i.done.Students, made)
	return made.ID, nil
}
