package store

import (
	"context"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/coaching"
	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// Standing is where one student of a class stands.
type Standing struct {
	Person
	// Stint is their latest one; nil before the first closed set.
	Stint *Stint
	// Verdict is that of the latest advice, "" before it. Finding is its most
	// pressing finding that is sure, as JSON of the adviser's; "null" for none.
	Verdict string
	Finding []byte
	// Recent are their latest sets, oldest first, at most MaxRecentSets.
	Recent []RecentSet
	// LeaveBreaks are those of the latest MaxPictureSets sets of Stint, oldest first,
	// where the student noted what one of them left; else nil.
	LeaveBreaks []drill.Break
	// InTrial is the change in trial; nil for none.
	InTrial *TriedChange
}

// TriedChange is a change that is being tried, or was: what was set and played,
// whatever had been proposed.
type TriedChange struct {
	ID            PrescriptionID
	Student       PersonID
	Set           SetID // that it was made from
	Kind          table.Kind
	Before, After drill.Setup
	State         State
	Decided       time.Time
	Counts        coaching.Counts
}

func triedFromRow(r query.Prescription, before, after query.Setup) (TriedChange, error) {
	p, err := prescriptionFromRow(r, before, after, after)
	return TriedChange{
		ID: p.ID, Student: p.Student, Set: p.Set, Kind: p.Kind, Before: p.Before, After: p.After,
		State: p.State, Decided: p.DecidedAt, Counts: p.Counts,
	}, err
}

// MaxRecentSets is how many of the latest sets a class page shows of a student.
const MaxRecentSets = 12

// GetClassProgress returns a class and where each student of it stands, by name,
// without archived ones: as many queries whatever the class and however long
// its history. Coaches only.
func (s *Store) GetClassProgress(ctx context.Context, v Actor, id ClassID) (c Class, all []Standing, err error) {
	err = s.inTransaction(ctx, v, "get the class's progress", func(t *tx) error {
		if err := v.requireCoach(); err != nil {
			return err
		}
		var ids []PersonID
		if c, all, ids, err = t.loadMembers(ctx, id); err != nil {
			return err
		}
		place := make(map[PersonID]*Standing, len(all))
		for i := range all {
			place[all[i].ID] = &all[i]
		}
		return t.fillStandings(ctx, ids, place)
	})
	return c, all, err
}

// GetClassProgressMark returns words that change whenever what [Store.GetClassProgress]
// tells of the class changes, for a small part of its cost. They mean nothing else.
// [ErrNotFound] for a class of another club. Coaches only.
func (s *Store) GetClassProgressMark(ctx context.Context, v Actor, id ClassID) (string, error) {
	return readInTransaction(ctx, s, v, "get the mark of the class's progress", func(t *tx) (string, error) {
		if err := v.requireCoach(); err != nil {
			return "", err
		}
		return t.Queries.GetClassProgressMark(ctx, id.UUID)
	})
}

// loadMembers returns a class with its students, and their ids.
func (t *tx) loadMembers(ctx context.Context, id ClassID) (Class, []Standing, []PersonID, error) {
	row, err := t.Queries.GetClass(ctx, id.UUID)
	if err != nil {
		return Class{}, nil, nil, err
	}
	rows, err := t.ListClassMembers(ctx, id.UUID)
	if err != nil {
		return Class{}, nil, nil, err
	}
	all, ids := make([]Standing, len(rows)), make([]PersonID, len(rows))
	for i, r := range rows {
		all[i].Person, ids[i] = personFromRow(query.GetPersonRow(r)), PersonID{r.ID}
	}
	c := classFromRow(row)
	c.Students = len(all)
	return c, all, ids, nil
}

func (t *tx) fillStandings(ctx context.Context, ids []PersonID, place map[PersonID]*Standing) error {
	stints, err := t.ListLatestStints(ctx, plainUUIDs(ids))
	if err != nil {
		return err
	}
	for _, r := range stints {
		stint, err := stintFromRow(r.Stint, r.Setup, r.PoolTable)
		if err != nil {
			return err
		}
		stint.applyTargets(r.TargetWing, r.TargetWindow, r.TargetShot, r.TargetRanOut)
		one := place[stint.Student]
		one.Stint, one.Verdict, one.Finding = &stint, r.Verdict, r.Finding
	}
	recent, err := t.loadRecentSets(ctx, ids, MaxRecentSets)
	if err != nil {
		return err
	}
	for who, sets := range recent {
		place[who].Recent = sets
	}
	if err := t.fillLeaveBreaks(ctx, place); err != nil {
		return err
	}
	inTrial, err := t.ListChangesInTrial(ctx, plainUUIDs(ids))
	if err != nil {
		return err
	}
	for _, r := range inTrial {
		tried, err := triedFromRow(r.Prescription, r.Setup, r.Setup_2)
		if err != nil {
			return err
		}
		if one := place[tried.Student]; one.InTrial == nil {
			one.InTrial = &tried
		}
	}
	return nil
}

func (t *tx) fillLeaveBreaks(ctx context.Context, place map[PersonID]*Standing) error {
	var sets []uuid.UUID
	for _, one := range place {
		sets = append(sets, one.latestStintSets()...)
	}
	rows, err := t.ListBreaksWithLeave(ctx, sets)
	if err != nil {
		return err
	}
	for _, r := range rows {
		b, err := drillBreak(r)
		if err != nil {
			return err
		}
		one := place[PersonID{r.StudentID}]
		one.LeaveBreaks = append(one.LeaveBreaks, b)
	}
	return nil
}

// latestStintSets are the sets of the latest stint that are drawn of it.
func (s *Standing) latestStintSets() []uuid.UUID {
	var sets []uuid.UUID
	for _, set := range s.Recent {
		if s.Stint != nil && set.Stint == s.Stint.ID {
			sets = append(sets, set.ID.UUID)
		}
	}
	return sets[max(0, len(sets)-MaxPictureSets):]
}
