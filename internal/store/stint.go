package store

import (
	"context"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// StintID is the id of the stint's first set.
type StintID struct{ uuid.UUID }

// Stint is all of a student's closed sets in a row under the same setup and
// table (drill.Stint), as it is kept: its counts, not its breaks.
//
// Nobody writes it: it follows from the sets and is grouped anew when one is closed,
// opened again, moved or corrected. A coach reads everybody's, a student their own:
// others are [ErrNotFound].
type Stint struct {
	ID      StintID
	Student PersonID
	Table   Table
	// Setup is that of its latest set.
	Setup   drill.Setup
	LastSet SetID
	// First and Last are when its first and its latest set were begun.
	First, Last time.Time
	// Latest says that no later one was begun.
	Latest bool
	// SetsBefore and BreaksBefore count the student's sets before this stint.
	SetsBefore, BreaksBefore int
	Sets                     int
	// Targets are those of the drill of its latest set, or the standard ones of
	// the table; only ClassProgress and GetStory return the drill's.
	Targets drill.Targets
	Tally
}

// applyTargets puts a drill's targets in the place of the standard ones.
func (s *Stint) applyTargets(wing, window, shot, ranOut *float64) {
	if wing != nil && window != nil {
		s.Targets = drill.Targets{Wing: *wing, Window: *window, Shot: valueOrZero(shot), RanOut: valueOrZero(ranOut)}
	}
}

// RecentSet is a closed set as charts need it.
type RecentSet struct {
	ID      SetID
	Stint   StintID
	Started time.Time
	Kind    table.Kind
	// Breaks, WingMade and InWindow are counts; WingMade is of the Watched.
	Breaks, Watched, WingMade, InWindow int
}

func stintFromRow(x query.Stint, s query.Setup, pool query.PoolTable) (Stint, error) {
	setup, err := setupFromRow(s)
	return Stint{
		ID: StintID{x.ID}, Student: PersonID{x.StudentID}, Table: tableFromRow(pool), Setup: setup,
		Targets: drill.StandardTargets(kindFromRow(pool)),
		LastSet: SetID{x.LastSetID}, First: x.FirstStartedAt.UTC(), Last: x.LastStartedAt.UTC(), Latest: x.Latest,
		SetsBefore: x.SetsBefore, BreaksBefore: x.BreaksBefore, Sets: x.Sets, Tally: tallyFromStint(x),
	}, err
}

// loadRecentSets returns each student's latest closed sets, oldest first.
func (t *tx) loadRecentSets(ctx context.Context, students []PersonID, most int) (map[PersonID][]RecentSet, error) {
	rows, err := t.ListRecentSets(ctx, query.ListRecentSetsParams{Students: plainUUIDs(students), Most: int32(most)})
	sets, all, first := make(map[PersonID][]RecentSet, len(students)), make([]RecentSet, len(rows)), 0
	for i, r := range rows {
		all[i] = RecentSet{
			ID: SetID{r.SetID}, Stint: StintID{r.StintID}, Started: r.StartedAt.UTC(),
			Kind:   table.Kind{Feet: r.Feet, Small: r.Small, CornerMouth: table.Inches(r.CornerIn), SideMouth: table.Inches(r.SideIn)},
			Breaks: r.Breaks, Watched: r.Watched, WingMade: r.WingMade, InWindow: r.InWindow,
		}
		if end := i + 1; end == len(rows) || rows[end].StudentID != r.StudentID {
			sets[PersonID{r.StudentID}] = all[first:end:end]
			first = end
		}
	}
	return sets, err
}

// loadBreaksOfSets returns the breaks of sets, each set's in their order.
func (t *tx) loadBreaksOfSets(ctx context.Context, sets []uuid.UUID) (map[uuid.UUID][]drill.Break, error) {
	rows, err := t.ListBreaksInSets(ctx, sets)
	if err != nil {
		return nil, err
	}
	breaks, all, first := make(map[uuid.UUID][]drill.Break, len(sets)), make([]drill.Break, len(rows)), 0
	for i := range rows { // not by value: a row is wide, and there may be ten thousand
		if all[i], err = drillBreak(rows[i]); err != nil {
			return nil, err
		}
		if end, set := i+1, rows[i].SetID; end == len(rows) || rows[end].SetID != set {
			breaks[set] = all[first:end:end]
			first = end
		}
	}
	return breaks, nil
}
