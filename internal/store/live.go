package store

import (
	"context"
	"maps"
	"slices"
	"time"

	"breakwright/internal/drill"
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
// they started since then; five queries however many they are. Coaches only.
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
	drills, err := t.liveDrills(ctx, rows)
	if err != nil {
		return nil, err
	}
	sets := map[PersonID]*Set{}
	bySet := map[uuid.UUID]*Set{}
	for _, r := range rows {
		set, err := setOf(r.BreakSet, r.PoolTable, r.Setup)
		if err != nil {
			return nil, err
		}
		set.Window, set.Targets = set.Table.Kind.StandardWindow(), drill.StandardTargets(set.Table.Kind)
		if d, known := drills[orZero(r.BreakSet.DrillID)]; known {
			n := d.Plain(set.Setup.Side, set.Table.Kind)
			set.Drill, set.Window, set.Targets = d, n.Window, n.Targets
		}
		sets[set.Student], bySet[r.BreakSet.ID] = &set, &set
	}
	return sets, t.addBreaks(ctx, bySet)
}

// liveDrills gives the drills that the sets are of.
func (t *tx) liveDrills(ctx context.Context, rows []query.ListLiveSetsRow) (map[uuid.UUID]Drill, error) {
	var ids []uuid.UUID
	for _, r := range rows {
		if r.BreakSet.DrillID != nil {
			ids = append(ids, *r.BreakSet.DrillID)
		}
	}
	found, err := t.ListDrillsOf(ctx, ids)
	if err != nil {
		return nil, err
	}
	drills := map[uuid.UUID]Drill{}
	for _, r := range found {
		if drills[r.Drill.ID], err = drillOf(r.Drill, r.Setup, true); err != nil {
			return nil, err
		}
	}
	return drills, nil
}

// addBreaks fills sets with their breaks.
func (t *tx) addBreaks(ctx context.Context, sets map[uuid.UUID]*Set) error {
	breaks, err := t.ListBreaksOfSets(ctx, slices.Collect(maps.Keys(sets)))
	if err != nil {
		return err
	}
	for _, r := range breaks {
		b, err := storedBreak(r)
		if err != nil {
			return err
		}
		sets[r.SetID].Breaks = append(sets[r.SetID].Breaks, b)
	}
	return nil
}
