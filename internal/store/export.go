package store

import (
	"context"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// ExportScope says whose sets are meant. The zero scope is the whole club, archived
// students too.
type ExportScope struct {
	Class   ClassID  // zero for any
	Student PersonID // zero for any; goes before Class
}

// ExportSets hands over everything that was recorded, open sets too and deleted
// breaks not, student by student by name, each student's sets oldest first.
// Students of one name are told apart as "Ada", "Ada (2)", in the order in
// which they joined, and tables are named with their venue. A student who
// recorded nothing is left out. An error of hand ends the export and comes
// back. A student can export only their own.
func (s *Store) ExportSets(ctx context.Context, v Actor, scope ExportScope, hand func(Person, []drill.Set) error) error {
	return s.inTransaction(ctx, v, "export", func(t *tx) error {
		students, err := t.listScopeStudents(ctx, scope)
		if err != nil {
			return err
		}
		labels, err := t.labelStudents(ctx)
		if err != nil {
			return err
		}
		for _, student := range students {
			recorded, err := t.loadRecordedSets(ctx, []PersonID{student.ID})
			if err != nil {
				return err
			}
			sets := closedDrillSets(recorded, labels[student.ID])
			if len(sets) == 0 {
				continue
			}
			if err := hand(student, sets); err != nil {
				return err
			}
		}
		return nil
	})
}

func closedDrillSets(recorded []Set, student string) []drill.Set {
	var sets []drill.Set
	for _, r := range recorded {
		if len(r.Breaks) > 0 {
			set := r.DrillSet()
			set.Student = student
			sets = append(sets, set)
		}
	}
	return sets
}

func (t *tx) listScopeStudents(ctx context.Context, scope ExportScope) ([]Person, error) {
	switch {
	case !IsZero(scope.Student):
		student, err := t.loadStudent(ctx, scope.Student)
		return []Person{student}, err
	case !IsZero(scope.Class):
		if _, err := t.Queries.GetClass(ctx, scope.Class.UUID); err != nil {
			return nil, err
		}
		rows, err := t.ListClassMembers(ctx, scope.Class.UUID)
		return mapRows(rows, func(r query.ListClassMembersRow) Person { return personFromRow(query.GetPersonRow(r)) }), err
	}
	rows, err := t.Queries.ListStudents(ctx, bool(WithArchived))
	return mapRows(rows, func(r query.ListStudentsRow) Person { return personFromRow(query.GetPersonRow(r)) }), err
}

// labelStudents names every student of the club apart.
func (t *tx) labelStudents(ctx context.Context) (map[PersonID]string, error) {
	rows, err := t.ListStudentsAsJoined(ctx)
	if err != nil {
		return nil, err
	}
	names := map[string]bool{}
	for _, r := range rows {
		names[r.Name] = true
	}
	labels := map[PersonID]string{}
	taken := map[string]bool{}
	for _, r := range rows {
		label := r.Name
		if taken[label] { // the first of a name keeps it
			label = freeName(r.Name, func(n string) bool { return taken[n] || names[n] })
		}
		taken[label] = true
		labels[PersonID{r.ID}] = label
	}
	return labels, nil
}
