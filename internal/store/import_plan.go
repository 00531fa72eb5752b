package store

import (
	"context"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// Plan says what an import of sets would do, and does nothing.
type Plan struct {
	Students []PlannedStudent // in the order in which they first appear
	Tables   []PlannedTable   // likewise
	// New sets have Breaks breaks; Had are there already, the very same.
	New, Breaks, Had int
	// Clashes are other sets under a name that the student has already: with
	// one of these the import would be refused.
	Clashes []Clash
	// Names are those of all students of the club, told apart as Export does.
	Names []string
}

// PlannedStudent is a student of the sets.
type PlannedStudent struct {
	Name         string
	Known        bool
	Sets, Breaks int
}

// PlannedTable is a table of the sets.
type PlannedTable struct {
	Label string
	Kind  table.Kind
	Known bool
	Sets  int
}

// Clash names a set.
type Clash struct{ Student, Set string }

// PlanImport says what Import would do with the sets as things are now, in the
// same number of queries however many there are. What Import would refuse with
// [drill.Problems] is refused so. Coaches only.
func (s *Store) PlanImport(ctx context.Context, v Viewer, sets []drill.Set) (Plan, error) {
	var plan Plan
	err := s.change(ctx, v, "plan the import", func(t *tx) error {
		if err := checkImport(sets); err != nil {
			return err
		}
		i := importer{tx: t}
		if err := i.prepare(ctx, sets); err != nil {
			return err
		}
		known := map[PersonID][]drill.Set{}
		for _, group := range byStudent(sets) {
			id, there := i.students[group[0].Student]
			if there {
				known[id] = group
			}
			plan.Students = append(plan.Students, plannedStudent(group, there))
		}
		there, err := i.named(ctx, known)
		if err != nil {
			return err
		}
		plan.addTables(sets, i.tables)
		plan.addSets(sets, i.students, there)
		plan.Names, err = i.names(ctx)
		return err
	})
	return plan, err
}

func plannedStudent(sets []drill.Set, known bool) PlannedStudent {
	p := PlannedStudent{Name: sets[0].Student, Known: known, Sets: len(sets)}
	for _, set := range sets {
		p.Breaks += len(set.Breaks)
	}
	return p
}

func (p *Plan) addTables(sets []drill.Set, known map[labelled]Table) {
	place := map[labelled]int{}
	for _, set := range sets {
		key := labelled{tableLabel(set), set.Kind}
		i, seen := place[key]
		if !seen {
			i = len(p.Tables)
			place[key] = i
			_, there := known[key]
			p.Tables = append(p.Tables, PlannedTable{Label: key.label, Kind: key.kind, Known: there})
		}
		p.Tables[i].Sets++
	}
}

func (p *Plan) addSets(sets []drill.Set, students map[string]PersonID, there map[PersonID]map[string]drill.Set) {
	for _, set := range sets {
		had, known := there[students[set.Student]][set.Name]
		switch {
		case !known:
			p.New++
			p.Breaks += len(set.Breaks)
		case sameSet(had, set):
			p.Had++
		default:
			p.Clashes = append(p.Clashes, Clash{set.Student, set.Name})
		}
	}
}

// names gives the labels of all students by name.
func (i *importer) names(ctx context.Context) ([]string, error) {
	labels, err := i.studentLabels(ctx)
	if err != nil {
		return nil, err
	}
	rows, err := i.Queries.ListStudents(ctx, bool(All))
	names := make([]string, 0, len(rows))
	for _, r := range rows {
		names = append(names, labels[PersonID{r.ID}])
	}
	return names, err
}

// CountBreaks counts what Export of that scope writes. Coaches only.
func (s *Store) CountBreaks(ctx context.Context, v Viewer, scope Scope) (int, error) {
	var n int
	err := s.change(ctx, v, "count the breaks", func(t *tx) error {
		students, err := t.scope(ctx, scope)
		if err != nil {
			return err
		}
		n, err = t.CountBreaksOf(ctx, query.CountBreaksOfParams{
			Everyone: scope == Scope{}, StudentIds: uuids(each(students, func(p Person) PersonID { return p.ID })),
		})
		return err
	})
	return n, err
}
