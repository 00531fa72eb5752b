package store

import (
	"context"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// ListedSet is a set in a student's list.
type ListedSet struct {
	ID         SetID
	Name       string
	Assignment AssignmentID
	Drill      DrillID
	DrillName  string // "" for a set from a break log, and for training
	// Training says what was trained without an assignment, "" else.
	Training        string
	TableLabel      string
	Kind            table.Kind
	Setup           drill.Setup
	Planned, Breaks int
	Started, Closed time.Time
	Verdict         string // "" before advice
	State           State  // of its prescription, "" for none
	// Questions counts the student's messages no coach has read, Answers the
	// coaches' that the student has not.
	Questions, Answers int
}

// ListSets returns a student's sets, newest first; one query however many.
func (s *Store) ListSets(ctx context.Context, v Actor, student PersonID) ([]ListedSet, error) {
	return readInTransaction(ctx, s, v, "list the sets", func(t *tx) ([]ListedSet, error) {
		if _, err := t.loadStudent(ctx, student); err != nil {
			return nil, err
		}
		rows, err := t.Queries.ListSets(ctx, student.UUID)
		if err != nil {
			return nil, err
		}
		sets := make([]ListedSet, len(rows))
		for i, r := range rows {
			if sets[i], err = listedSetFromRow(r); err != nil {
				return nil, err
			}
		}
		return sets, nil
	})
}

func listedSetFromRow(r query.ListSetsRow) (ListedSet, error) {
	setup, err := setupFromRow(r.Setup)
	where := tableFromRow(r.PoolTable)
	return ListedSet{
		ID: SetID{r.ID}, Name: r.Name, Assignment: idOrZero[AssignmentID](r.AssignmentID),
		Drill: idOrZero[DrillID](r.DrillID), DrillName: r.DrillName, Training: r.Training,
		TableLabel: where.Label(), Kind: where.Kind, Setup: setup,
		Planned: r.Planned, Breaks: r.Breaks, Started: r.StartedAt.UTC(), Closed: utcOrZero(r.ClosedAt),
		Verdict: r.Verdict, State: State(r.State), Questions: r.Waiting, Answers: r.Answers,
	}, err
}
