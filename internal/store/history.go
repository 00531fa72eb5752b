package store

import (
	"context"
	"slices"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/coaching"
	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// History is a student's closed sets with breaks, oldest first, as the pure
// packages know them.
type History struct {
	// IDs and Sets go together.
	IDs  []SetID
	Sets []drill.Set
	// closed is when each was closed.
	closed []time.Time
	// Overruled are the coach's decisions against proposals, newest first.
	Overruled []OverruledProposal
}

// OverruledProposal is a proposal that a coach declined or changed, or the coach's
// own change.
type OverruledProposal = coaching.Overruled

// GetHistory returns a student's history; an empty one before the first set.
func (s *Store) GetHistory(ctx context.Context, v Actor, student PersonID) (History, error) {
	return readInTransaction(ctx, s, v, "get the history", func(t *tx) (History, error) {
		if _, err := t.loadStudent(ctx, student); err != nil {
			return History{}, err
		}
		histories, err := t.loadHistories(ctx, []PersonID{student})
		return histories[student], err
	})
}

// GetHistories returns the histories of many students in as many queries as one.
// A student the actor may not see has an empty one.
func (s *Store) GetHistories(ctx context.Context, v Actor, students []PersonID) (map[PersonID]History, error) {
	return readInTransaction(ctx, s, v, "get the histories", func(t *tx) (map[PersonID]History, error) {
		return t.loadHistories(ctx, students)
	})
}

func (t *tx) loadHistories(ctx context.Context, students []PersonID) (map[PersonID]History, error) {
	recorded, err := t.loadRecordedSets(ctx, students)
	if err != nil {
		return nil, err
	}
	histories := make(map[PersonID]History, len(students))
	for _, set := range recorded {
		if set.Closed.IsZero() || len(set.Breaks) == 0 {
			continue
		}
		h := histories[set.Student]
		h.addSet(set)
		histories[set.Student] = h
	}
	prescriptions, err := t.loadPrescriptions(ctx, students)
	if err != nil {
		return nil, err
	}
	for _, p := range prescriptions {
		if p.isOverruled() {
			h := histories[p.Student]
			h.addOverruled(p)
			histories[p.Student] = h
		}
	}
	return histories, nil
}

// isOverruled reports whether a coach decided against the proposal, or without one.
func (p Prescription) isOverruled() bool { return p.Change().IsOverruled() }

func (h *History) addSet(set Set) {
	h.IDs, h.Sets, h.closed = append(h.IDs, set.ID), append(h.Sets, set.DrillSet()), append(h.closed, set.Closed)
}

// addOverruled adds a coach's decision. The proposal was made when its set was
// closed: a set that was started earlier but closed later is no part of it.
func (h *History) addOverruled(p Prescription) {
	of := slices.Index(h.IDs, p.Set)
	if of < 0 {
		return
	}
	var closed []drill.Set
	for i, set := range h.Sets {
		if !h.closed[i].After(h.closed[of]) {
			closed = append(closed, set)
		}
	}
	h.Overruled = append(h.Overruled, coaching.Overrule(p.Rule, p.Decision, p.After, h.Sets[of], closed))
}

// loadRecordedSets returns all sets of the students with their breaks, open ones too,
// without what was said, of drills only the id, with the windows they were counted
// with; each student's oldest first.
func (t *tx) loadRecordedSets(ctx context.Context, students []PersonID) ([]Set, error) {
	rows, err := t.ListSetsOfStudents(ctx, plainUUIDs(students))
	if err != nil {
		return nil, err
	}
	breaks, err := t.loadBreaksBySet(ctx, students)
	if err != nil {
		return nil, err
	}
	sets := make([]Set, 0, len(rows))
	for _, r := range rows {
		set, err := setFromRow(r.BreakSet, r.PoolTable, r.Setup)
		if err != nil {
			return nil, err
		}
		set.StudentName, set.Window, set.Drill.ID = r.StudentName, windowFromRow(r.SetTally), idOrZero[DrillID](r.BreakSet.DrillID)
		set.Breaks = breaks[r.BreakSet.ID]
		sets = append(sets, set)
	}
	return sets, nil
}

func (t *tx) loadBreaksBySet(ctx context.Context, students []PersonID) (map[uuid.UUID][]Break, error) {
	rows, err := t.ListBreaksOfStudents(ctx, plainUUIDs(students))
	if err != nil {
		return nil, err
	}
	return groupBreaksBySet(rows)
}

// groupBreaksBySet returns the breaks of each set, in their order.
func groupBreaksBySet(rows []query.Break) (map[uuid.UUID][]Break, error) {
	breaks := map[uuid.UUID][]Break{}
	for _, r := range rows {
		b, err := storedBreak(r)
		if err != nil {
			return nil, err
		}
		breaks[r.SetID] = append(breaks[r.SetID], b)
	}
	return breaks, nil
}
