package store

import (
	"context"
	"errors"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// A set that was closed changes the stint it falls into and perhaps those after
// it, when it was begun before sets that were closed earlier. Stints before are
// never touched, since grouping begins afresh with each stint. So closing the
// newest set costs the same however many there are.

// regroupStints puts a closed set into its stint. The student must be locked.
func (t *tx) regroupStints(ctx context.Context, student PersonID, set uuid.UUID, started time.Time) error {
	from, sets, breaks, err := t.findRegroupStart(ctx, student, set, started)
	if err != nil {
		return err
	}
	return t.regroupStintsFrom(ctx, student, from, sets, breaks)
}

// regroupStintsFrom groups the sets from a place on anew; so many sets and breaks
// come before it.
func (t *tx) regroupStintsFrom(ctx context.Context, student PersonID, from setPosition, sets, breaks int) error {
	rows, err := t.ListTalliesFrom(ctx, query.ListTalliesFromParams{
		StudentID: student.UUID, StartedAt: from.started, SetID: from.id,
	})
	if err != nil {
		return err
	}
	groups, err := groupStints(rows)
	if err != nil {
		return err
	}
	for i := range groups {
		groups[i].SetsBefore, groups[i].BreaksBefore = sets, breaks
		sets, breaks = sets+groups[i].Sets, breaks+groups[i].Breaks
	}
	if len(groups) > 0 {
		groups[len(groups)-1].Latest = true
	}
	return t.saveStints(ctx, student, from, groups, rows)
}

// setPosition is where a set stands among a student's.
type setPosition struct {
	started time.Time
	id      uuid.UUID
}

// findRegroupStart finds the first set of the stint in which a set falls, and how
// many sets and breaks come before that stint.
func (t *tx) findRegroupStart(ctx context.Context, student PersonID, set uuid.UUID, started time.Time) (from setPosition, sets, breaks int, err error) {
	before, err := t.FindStintBefore(ctx, query.FindStintBeforeParams{StudentID: student.UUID, StartedAt: started, SetID: set})
	switch {
	case errors.Is(err, pgx.ErrNoRows): // the very first
		return setPosition{started, set}, 0, 0, nil
	case err != nil:
		return setPosition{}, 0, 0, err
	}
	return setPosition{before.FirstStartedAt, before.ID}, before.SetsBefore, before.BreaksBefore, nil
}

// groupStints adds sets in a row up to stints, by the rule of package drill:
// each set is given to it with as many breaks as it has, and nothing in them.
func groupStints(rows []query.ListTalliesFromRow) ([]query.Stint, error) {
	sets := make([]drill.Set, len(rows))
	for i, r := range rows {
		setup, err := setupFromRow(r.Setup)
		if err != nil {
			return nil, err
		}
		sets[i] = drill.Set{Table: r.TableID.String(), Setup: setup, Breaks: make([]drill.Break, r.SetTally.Breaks)}
	}
	var groups []query.Stint
	next := 0
	for _, stint := range drill.GroupStints(sets) {
		groups = append(groups, sumStint(rows[next:next+len(stint.Sets)]))
		next += len(stint.Sets)
	}
	return groups, nil
}

// sumStint makes the row of one stint.
func sumStint(rows []query.ListTalliesFromRow) query.Stint {
	first, last := rows[0], rows[len(rows)-1]
	var n Tally
	for _, r := range rows {
		n = n.Plus(tallyFromRow(r.SetTally))
	}
	return query.Stint{
		ClubID: first.SetTally.ClubID, ID: first.SetTally.SetID, StudentID: first.SetTally.StudentID,
		TableID: last.TableID, SetupID: last.Setup.ID, LastSetID: last.SetTally.SetID,
		FirstStartedAt: first.SetTally.StartedAt, LastStartedAt: last.SetTally.StartedAt,
		Sets: len(rows), Breaks: n.Breaks, Watched: n.Watched, WingMade: n.WingMade, MissSide: n.MissSide, MissFoot: n.MissFoot,
		MissKissed: n.MissKissed, MissJaws: n.MissJaws, InWindow: n.InWindow,
		ScratchHead: n.ScratchHead, ScratchSide: n.ScratchSide, ScratchFoot: n.ScratchFoot,
		CueOff: n.CueOff, BallsOff: n.BallsOff, Dry: n.Dry, Weak: n.Weak, WeakKnown: n.WeakKnown,
	}
}

// saveStints writes the stints from a place on, and which sets are in which.
func (t *tx) saveStints(ctx context.Context, student PersonID, from setPosition, groups []query.Stint, rows []query.ListTalliesFromRow) error {
	keep := mapRows(groups, func(g query.Stint) uuid.UUID { return g.ID })
	err := t.DeleteStintsFrom(ctx, query.DeleteStintsFromParams{
		StudentID: student.UUID, StartedAt: from.started, SetID: from.id, But: keep,
	})
	if err != nil {
		return err
	}
	var failed error
	t.UpsertStint(ctx, mapRows(groups, func(g query.Stint) query.UpsertStintParams { return query.UpsertStintParams(g) })).
		Exec(func(_ int, err error) {
			if failed == nil {
				failed = err
			}
		})
	if failed != nil {
		return failed
	}
	var put query.AssignSetsToStintsParams
	next := 0
	for _, g := range groups {
		for _, r := range rows[next : next+g.Sets] {
			put.Sets, put.Stints = append(put.Sets, r.SetTally.SetID), append(put.Stints, g.ID)
		}
		next += g.Sets
	}
	return t.AssignSetsToStints(ctx, put)
}
