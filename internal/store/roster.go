package store

import (
	"context"
	"slices"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/store/internal/query"
)

// RosterStudent is a student as the list of all of them shows one.
type RosterStudent struct {
	Person
	Classes []ClassID // those that are not archived
	LastSet time.Time // when the latest set that counts began; zero: none yet
}

// ListRoster returns all students of the club by name, archived ones too, in one
// query. Coaches only.
func (s *Store) ListRoster(ctx context.Context, v Actor) ([]RosterStudent, error) {
	return readInTransaction(ctx, s, v, "list all students", func(t *tx) ([]RosterStudent, error) {
		if err := v.requireCoach(); err != nil {
			return nil, err
		}
		rows, err := t.Queries.ListRoster(ctx)
		return mapRows(rows, func(r query.ListRosterRow) RosterStudent {
			return RosterStudent{
				Person: personFromRow(query.GetPersonRow{
					ID: r.ID, Role: r.Role, Name: r.Name, Side: r.Side, Login: r.Login, Code: r.Code,
					JoinedAt: r.JoinedAt, ArchivedAt: r.ArchivedAt, HasSecret: r.HasSecret, CodeMadeAt: r.CodeMadeAt,
				}),
				Classes: mapRows(r.Classes, func(id uuid.UUID) ClassID { return ClassID{id} }),
				LastSet: utcOrZero(r.LastSetAt),
			}
		}), err
	})
}

// IsIn reports whether the student is in a class.
func (s RosterStudent) IsIn(class ClassID) bool { return slices.Contains(s.Classes, class) }
