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

// DecidePrescription answers a proposal. The same answer again is harmless; another one
// than was given, or an answer to a proposal that a newer one has replaced, is
// an [ErrConflict]. Coaches only.
func (s *Store) DecidePrescription(ctx context.Context, v Actor, id PrescriptionID, d Decision) error {
	return s.changeAsCoach(ctx, v, "decide on the prescription", func(t *tx) error {
		row, err := t.LockPrescription(ctx, id.UUID)
		if err != nil {
			return err
		}
		if err := d.validateFor(row.PoolTable); err != nil {
			return err
		}
		instead, err := t.ensureInsteadSetup(ctx, d)
		if err != nil {
			return err
		}
		r := row.Prescription
		if r.Decision != nil || r.SupersededAt != nil {
			return d.checkRepeat(r, instead)
		}
		t.queueEvent(PrescriptionDecided, PersonID{r.StudentID}, SetID{r.SetID})
		return t.DecidePrescription(ctx, query.DecidePrescriptionParams{
			ID: r.ID, Decision: string(d.Answer), DecidedBy: v.Person.UUID, DecisionNote: d.Note, DecidedSetupID: instead,
		})
	})
}

func (d Decision) validateFor(where query.PoolTable) error {
	if utf8.RuneCountInString(d.Note) > drill.MaxNote {
		return fieldProblem("note", "a note has at most 2000 characters")
	}
	switch d.Answer {
	case Approved, Declined:
		return nil
	case Changed:
		return d.Setup.Check(kindFromRow(where))
	}
	return fieldProblem("answer", "approve the change, change it or decline it")
}

// ensureInsteadSetup gives the row of the coach's own setup, nil when there is none.
func (t *tx) ensureInsteadSetup(ctx context.Context, d Decision) (*uuid.UUID, error) {
	if d.Answer != Changed {
		return nil, nil
	}
	id, err := t.ensureBothWays(ctx, d.Setup)
	return &id, err
}

// checkRepeat is nil when the answer is the one that was given before.
func (d Decision) checkRepeat(r query.Prescription, instead *uuid.UUID) error {
	switch {
	case r.SupersededAt != nil:
		return newRefusal(ErrConflict, "a newer proposal has taken the place of this one")
	case State(*r.Decision) != d.Answer, valueOrZero(r.DecidedSetupID) != valueOrZero(instead), r.DecisionNote != d.Note:
		return newRefusal(ErrConflict, "this was decided already: %s", *r.Decision)
	}
	return nil
}
