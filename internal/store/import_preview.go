package store

import (
	"context"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// ImportPreview says what an import of sets would do, and does nothing.
type ImportPreview struct {
	Students []PreviewStudent // in the order in which they first appear
	Tables   []PreviewTable   // likewise
	// New sets have Breaks breaks; Had are there already, the very same.
	New, Breaks, Duplicates int
	// Clashes are other sets under a name that the student has already: with
	// one of these the import would be refused.
	Clashes []NameClash
	// Names are those of all students of the club, told apart as Export does.
	Names []string
}

// PreviewStudent is a student of the sets.
type PreviewStudent struct {
	Name         string
	Known        bool
	Sets, Breaks int
}

// PreviewTable is a table of the sets.
type PreviewTable struct {
	Label string
	Kind  table.Kind
	Known bool
	Sets  int
}

// NameClash names a set.
type NameClash struct{ Student, Set string }

// PreviewImport says what Import would do with the sets as things are now, in the
// same number of queries however many there are. What Import would refuse with
// [drill.Problems] is refused so. Coaches only.
func (s *Store) PreviewImport(ctx context.Context, v Actor, sets []drill.Set) (ImportPreview, error) {
	var plan ImportPreview
	err := s.changeAsCoach(ctx, v, "plan the import", func(t *tx) error {
		if err := checkImport(sets); err != nil {
			return err
		}
		i := importer{tx: t}
		if err := i.loadKnownNames(ctx, sets); err != nil {
			return err
		}
		known := map[PersonID][]drill.Set{}
		for _, group := range groupByStudent(sets) {
			id, there := i.students[group[0].Student]
			if there {
				known[id] = group
			}
			plan.Students = append(plan.Students, newPreviewStudent(group, there))
		}
		there, err := i.findNamedSets(ctx, known)
		if err != nil {
			return err
		}
		plan.addTables(sets, i.tables)
		plan.addSets(sets, i.students, there)
		plan.Names, err = i.listStudentLabels(ctx)
		return err
	})
	return plan, err
}

func newPreviewStudent(sets []drill.Set, known bool) PreviewStudent {
	p := PreviewStudent{Name: sets[0].Student, Known: known, Sets: len(sets)}
	for _, set := range sets {
		p.Breaks += len(set.Breaks)
	}
	return p
}

func (p *ImportPreview) addTables(sets []drill.Set, known map[tableKey]Table) {
	place := map[tableKey]int{}
	for _, set := range sets {
		key := tableKey{tableLabel(set), set.Kind}
		i, seen := place[key]
		if !seen {
			i = len(p.Tables)
			place[key] = i
			_, there := known[key]
			p.Tables = append(p.Tables, PreviewTable{Label: key.label, Kind: key.kind, Known: there})
		}
		p.Tables[i].Sets++
	}
}

func (p *ImportPreview) addSets(sets []drill.Set, students map[string]PersonID, there map[PersonID]map[string]drill.Set) {
	for _, set := range sets {
		had, known := there[students[set.Student]][set.Name]
		switch {
		case !known:
			p.New++
			p.Breaks += len(set.Breaks)
		case sameSet(had, set):
			p.Duplicates++
		default:
			p.Clashes = append(p.Clashes, NameClash{set.Student, set.Name})
		}
	}
}

// listStudentLabels returns the labels of all students by name.
func (i *importer) listStudentLabels(ctx context.Context) ([]string, error) {
	labels, err := i.labelStudents(ctx)
	if err != nil {
		return nil, err
	}
	rows, err := i.Queries.ListStudents(ctx, bool(WithArchived))
	names := make([]string, 0, len(rows))
	for _, r := range rows {
		names = append(names, labels[PersonID{r.ID}])
	}
	return names, err
}

// CountBreaks counts what Export of that scope writes. Coaches only.
func (s *Store) CountBreaks(ctx context.Context, v Actor, scope ExportScope) (int, error) {
	var n int
	err := s.changeAsCoach(ctx, v, "count the breaks", func(t *tx) error {
		students, err := t.listScopeStudents(ctx, scope)
		if err != nil {
			return err
		}
		n, err = t.CountExportedBreaks(ctx, query.CountExportedBreaksParams{
			Everyone: scope == ExportScope{}, StudentIds: plainUUIDs(mapRows(students, func(p Person) PersonID { return p.ID })),
		})
		return err
	})
	return n, err
}
