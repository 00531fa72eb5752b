package store

import (
	"context"
	"unicode/utf8"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// Decision is a coach's answer to a proposal.
type Decision struct {
	// Answer is Approved, Changed or Declined.
	Answer State
	// Setup is what the student is to do instead, the right way round for them,
	// when the answer is Changed; else it is ignored.
	Setup drill.Setup
	Note  string
}

// Decide answers a proposal. The same answer again is harmless; another one
// than was given, or an answer to a proposal that a newer one has replaced, is
// an [ErrConflict]. Coaches only.
func (s *Store) Decide(ctx context.Context, v Viewer, id PrescriptionID, d Decision) error {
	return s.change(ctx, v, "decide on the prescription", func(t *tx) error {
		row, err := t.LockPrescription(ctx, id.UUID)
		if err != nil {
			return err
		}
		if err := d.check(row.PoolTable); err != nil {
			return err
		}
		instead, err := t.insteadOf(ctx, d)
		if err != nil {
			return err
		}
		r := row.Prescription
		if r.Decision != nil || r.SupersededAt != nil {
			return d.repeats(r, instead)
		}
		t.tell(Decided, PersonID{r.StudentID}, SetID{r.SetID})
		return t.DecidePrescription(ctx, query.DecidePrescriptionParams{
			ID: r.ID, Decision: string(d.Answer), DecidedBy: v.Person.UUID, DecisionNote: d.Note, DecidedSetupID: instead,
		})
	})
}

func (d Decision) check(where query.PoolTable) error {
	if utf8.RuneCountInString(d.Note) > drill.MaxNote {
		return problem("note", "a note has at most 2000 characters")
	}
	switch d.Answer {
	case Approved, Declined:
		return nil
	case Changed:
		return d.Setup.Check(kindOfTable(where))
	}
	return problem("answer", "approve the change, change it or decline it")
}

// insteadOf gives the row of the coach's own setup, nil when there is none.
func (t *tx) insteadOf(ctx context.Context, d Decision) (*uuid.UUID, error) {
	if d.Answer != Changed {
		return nil, nil
	}
	id, err := t.ensureBothWays(ctx, d.Setup)
	return &id, err
}

// repeats is nil when the answer is the one that was given before.
func (d Decision) repeats(r query.Prescription, instead *uuid.UUID) error {
	switch {
	case r.SupersededAt != nil:
		return refuse(ErrConflict, "a newer proposal has taken the place of this one")
	case State(*r.Decision) != d.Answer, orZero(r.DecidedSetupID) != orZero(instead), r.DecisionNote != d.Note:
		return refuse(ErrConflict, "this was decided already: %s", *r.Decision)
	}
	return nil
}
