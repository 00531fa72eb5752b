package store

import (
	"context"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// Scope says whose sets are meant. The zero scope is the whole club, archived
// students too.
type Scope struct {
	Class   ClassID  // zero for any
	Student PersonID // zero for any; goes before Class
}

// Export hands over everything that was recorded, open sets too and deleted
// breaks not, student by student by name, each student's sets oldest first.
// Students of one name are told apart as "Ada", "Ada (2)", in the order in
// which they joined, and tables are named with their venue. A student who
// recorded nothing is left out. An error of hand ends the export and comes
// back. A student can export only their own.
func (s *Store) Export(ctx context.Context, v Viewer, scope Scope, hand func(Person, []drill.Set) error) error {
	return s.in(ctx, v, "export", func(t *tx) error {
		students, err := t.scope(ctx, scope)
		if err != nil {
			return err
		}
		labels, err := t.studentLabels(ctx)
		if err != nil {
			return err
		}
		for _, student := range students {
			recorded, err := t.recorded(ctx, []PersonID{student.ID})
			if err != nil {
				return err
			}
			sets := seen(recorded, labels[student.ID])
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

func seen(recorded []Set, student string) []drill.Set {
	var sets []drill.Set
	for _, r := range recorded {
		if len(r.Breaks) > 0 {
			set := r.Seen()
			set.Student = student
			sets = append(sets, set)
		}
	}
	return sets
}

func (t *tx) scope(ctx context.Context, scope Scope) ([]Person, error) {
	switch {
	case !IsZero(scope.Student):
		student, err := t.student(ctx, scope.Student)
		return []Person{student}, err
	case !IsZero(scope.Class):
		if _, err := t.Queries.GetClass(ctx, scope.Class.UUID); err != nil {
			return nil, err
		}
		rows, err := t.ListMembers(ctx, scope.Class.UUID)
		return each(rows, func(r query.ListMembersRow) Person { return person(query.GetPersonRow(r)) }), err
	}
	rows, err := t.Queries.ListStudents(ctx, bool(All))
	return each(rows, func(r query.ListStudentsRow) Person { return person(query.GetPersonRow(r)) }), err
}

// studentLabels names every student of the club apart.
func (t *tx) studentLabels(ctx context.Context) (map[PersonID]string, error) {
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
