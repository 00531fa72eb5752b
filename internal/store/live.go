package store

import (
	"context"
	"time"

	"breakwright/internal/store/internal/query"

	"github.com/google/uuid"
)

// AtTable is a student of a class during a lesson.
type AtTable struct {
	Student Person
	// Set is the latest one they started since the lesson began, nil before the
	// first. It comes without what was said about it.
	Set *Set
}

// ListLive gives the students of a class by name, each with the latest set
// they started since then; four queries however many they are. Coaches only.
func (s *Store) ListLive(ctx context.Context, v Viewer, class ClassID, since time.Time) ([]AtTable, error) {
	return read(ctx, s, v, "look at the lesson", func(t *tx) ([]AtTable, error) {
		if err := v.mustCoach(); err != nil {
			return nil, err
		}
		if _, err := t.Queries.GetClass(ctx, class.UUID); err != nil {
			return nil, err
		}
		members, err := t.ListMembers(ctx, class.UUID)
		if err != nil {
			return nil, err
		}
		sets, err := t.liveSets(ctx, class, since)
		if err != nil {
			return nil, err
		}
		return each(members, func(r query.ListMembersRow) AtTable {
			student := person(query.GetPersonRow(r))
			return AtTable{Student: student, Set: sets[student.ID]}
		}), nil
	})
}

func (t *tx) liveSets(ctx context.Context, class ClassID, since time.Time) (map[PersonID]*Set, error) {
	rows, err := t.ListLiveSets(ctx, query.ListLiveSetsParams{ClassID: class.UUID, Since: since})
	if err != nil {
		return nil, err
	}
	sets := map[PersonID]*Set{}
	bySet := map[uuid.UUID]*Set{}
	ids := make([]uuid.UUID, 0, len(rows))
	for _, r := range rows {
		set, err := setOf(r.BreakSet, r.PoolTable, r.Setup)
		if err != nil {
			return nil, err
		}
		set.Window = set.Table.Kind.StandardWindow()
		sets[set.Student], bySet[r.BreakSet.ID] = &set, &set
		ids = append(ids, r.BreakSet.ID)
	}
	breaks, err := t.ListBreaksOfSets(ctx, ids)
	if err != nil {
		return nil, err
	}
	for _, r := range breaks {
		b, err := storedBreak(r)
		if err != nil {
			return nil, err
		}
		bySet[r.SetID].Breaks = append(bySet[r.SetID].Breaks, b)
	}
	return sets, nil
}
