package store

import (
	"context"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// Class is a group of students that is taught together.
//
// A coach makes, renames and archives it ([ErrNotAllowed] for a student); a student
// reads their own, in it themself alone: others are [ErrNotFound]. What was recorded
// in it is kept when it is archived and when a student leaves it.
type Class struct {
	ID       ClassID
	Name     string
	Archived bool
	// Students counts those who are not archived; only ListClasses fills it.
	Students int
}

// SaveClass makes a class or renames one. Coaches only.
func (s *Store) SaveClass(ctx context.Context, v Actor, c Class) (ClassID, error) {
	id := idOrNew(c.ID)
	err := s.changeAsCoach(ctx, v, "save the class", func(t *tx) error {
		if says := drill.CheckName(c.Name); says != "" {
			return fieldProblem("name", says)
		}
		if err := requireChangedRow(t.UpsertClass(ctx, query.UpsertClassParams{ClubID: v.Club.UUID, ID: id.UUID, Name: c.Name})); err != nil {
			return err
		}
		return t.requireRoom(ctx, RoomForClasses, uuid.Nil)
	})
	return id, err
}

// ArchiveClass puts a class away; its assignments are no longer for anyone.
// Coaches only.
func (s *Store) ArchiveClass(ctx context.Context, v Actor, id ClassID) error {
	return s.changeAsCoach(ctx, v, "archive the class", func(t *tx) error {
		return requireChangedRow(t.Queries.ArchiveClass(ctx, id.UUID))
	})
}

// RestoreClass takes a class back from the archived ones; its open assignments
// are for its students again. Coaches only.
func (s *Store) RestoreClass(ctx context.Context, v Actor, id ClassID) error {
	return s.changeAsCoach(ctx, v, "restore the class", func(t *tx) error {
		return requireChangedRow(t.Queries.RestoreClass(ctx, id.UUID))
	})
}

// ListClasses returns the classes by name; for a student their own.
func (s *Store) ListClasses(ctx context.Context, v Actor, which ArchiveFilter) ([]Class, error) {
	return readInTransaction(ctx, s, v, "list the classes", func(t *tx) ([]Class, error) {
		rows, err := t.Queries.ListClasses(ctx, bool(which))
		return mapRows(rows, func(r query.ListClassesRow) Class {
			c := classFromRow(r.Class)
			c.Students = r.Students
			return c
		}), err
	})
}

// GetClass returns a class and its students by name, without archived ones. A
// student sees themself alone.
func (s *Store) GetClass(ctx context.Context, v Actor, id ClassID) (c Class, students []Person, err error) {
	err = s.inTransaction(ctx, v, "get the class", func(t *tx) error {
		row, err := t.Queries.GetClass(ctx, id.UUID)
		if err != nil {
			return err
		}
		members, err := t.ListClassMembers(ctx, id.UUID)
		if err != nil {
			return err
		}
		c = classFromRow(row)
		students = mapRows(members, func(r query.ListClassMembersRow) Person { return personFromRow(query.GetPersonRow(r)) })
		c.Students = len(students)
		return nil
	})
	return c, students, err
}

func classFromRow(row query.Class) Class {
	return Class{ID: ClassID{row.ID}, Name: row.Name, Archived: row.ArchivedAt != nil}
}
