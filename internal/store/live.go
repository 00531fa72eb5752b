package store

import (
	"context"
	"maps"
	"slices"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// LiveStudent is a student of a class during an evening.
type LiveStudent struct {
	Student Person
	// Set is the latest one they started since the evening began, nil before the
	// first. It comes without what was said about it.
	Set *Set
}

// ListLiveStudents returns the students of a class by name, each with the latest set
// they started since then; five queries however many they are. Coaches only.
func (s *Store) ListLiveStudents(ctx context.Context, v Actor, class ClassID, since time.Time) ([]LiveStudent, error) {
	return readInTransaction(ctx, s, v, "look at the live board", func(t *tx) ([]LiveStudent, error) {
		if err := v.requireCoach(); err != nil {
			return nil, err
		}
		if _, err := t.Queries.GetClass(ctx, class.UUID); err != nil {
			return nil, err
		}
		members, err := t.ListClassMembers(ctx, class.UUID)
		if err != nil {
			return nil, err
		}
		sets, err := t.loadLiveSets(ctx, class, since)
		if err != nil {
			return nil, err
		}
		return mapRows(members, func(r query.ListClassMembersRow) LiveStudent {
			student := personFromRow(query.GetPersonRow(r))
			return LiveStudent{Student: student, Set: sets[student.ID]}
		}), nil
	})
}

func (t *tx) loadLiveSets(ctx context.Context, class ClassID, since time.Time) (map[PersonID]*Set, error) {
	rows, err := t.ListLiveSets(ctx, query.ListLiveSetsParams{ClassID: class.UUID, Since: since})
	if err != nil {
		return nil, err
	}
	drills, err := t.loadLiveDrills(ctx, rows)
	if err != nil {
		return nil, err
	}
	sets := map[PersonID]*Set{}
	bySet := map[uuid.UUID]*Set{}
	for _, r := range rows {
		set, err := setFromRow(r.BreakSet, r.PoolTable, r.Setup)
		if err != nil {
			return nil, err
		}
		set.Window, set.Targets = set.Table.Kind.StandardWindow(), drill.StandardTargets(set.Table.Kind)
		if d, known := drills[valueOrZero(r.BreakSet.DrillID)]; known {
			n := d.UndecidedInstruction(set.Setup.Side, set.Table.Kind)
			set.Drill, set.Window, set.Targets = d, n.Window, n.Targets
		}
		sets[set.Student], bySet[r.BreakSet.ID] = &set, &set
	}
	return sets, t.loadBreaksInto(ctx, bySet)
}

// loadLiveDrills returns the drills that the sets are of.
func (t *tx) loadLiveDrills(ctx context.Context, rows []query.ListLiveSetsRow) (map[uuid.UUID]Drill, error) {
	var ids []uuid.UUID
	for _, r := range rows {
		if r.BreakSet.DrillID != nil {
			ids = append(ids, *r.BreakSet.DrillID)
		}
	}
	found, err := t.ListDrillsByID(ctx, ids)
	if err != nil {
		return nil, err
	}
	drills := map[uuid.UUID]Drill{}
	for _, r := range found {
		if drills[r.Drill.ID], err = drillFromRow(r.Drill, r.Setup, true); err != nil {
			return nil, err
		}
	}
	return drills, nil
}

// loadBreaksInto fills sets with their breaks.
func (t *tx) loadBreaksInto(ctx context.Context, sets map[uuid.UUID]*Set) error {
	rows, err := t.ListBreaksOfSets(ctx, slices.Collect(maps.Keys(sets)))
	if err != nil {
		return err
	}
	breaks, err := groupBreaksBySet(rows)
	if err != nil {
		return err
	}
	for id, set := range sets {
		set.Breaks = breaks[id]
	}
	return nil
}
