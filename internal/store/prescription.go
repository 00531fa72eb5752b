package store

import (
	"context"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// State is what became of a prescription.
type State string

// The states: proposed → approved, changed or declined by a coach → in trial
// from the first set under it → helped, no difference or hurt.
const (
	Proposed     State = "proposed"
	Approved     State = "approved"
	Changed      State = "changed"
	Declined     State = "declined"
	InTrial      State = "in trial"
	Helped       State = "helped"
	NoDifference State = "no difference"
	Hurt         State = "hurt"
)

// Proposal is the one change that advice asks for, in words and as a setup. The
// setup it changes is that of the set.
type Proposal struct {
	// Rule, Variable, From, To and Unit are the adviser's; kept to explain the
	// change years later. Rule, Variable and Reason must not be empty.
	Rule, Variable, From, To, Unit string
	Reason, Expect, Caution        string
	// Setup is the whole setup with the change made, the right way round for
	// the student.
	Setup drill.Setup
}

// Prescription is a proposal with what became of it.
type Prescription struct {
	ID      PrescriptionID
	Set     SetID
	Student PersonID
	Proposal
	// Before is the setup of the set, Proposal.Setup what was proposed, and
	// After what a student is to do: the coach's when the state came from
	// Changed, else the proposed one.
	Before, After drill.Setup
	State         State
	// Decision is Approved, Changed or Declined, "" before it is made.
	Decision     State
	DecidedBy    PersonID
	DecidedAt    time.Time
	DecisionNote string
	Created      time.Time
	// Superseded is when a newer proposal took the place of this one before it
	// was decided; else the zero time.
	Superseded time.Time
}

// PendingPrescription is a proposal that waits for a coach.
type PendingPrescription struct {
	Prescription
	StudentName string
	DrillName   string // "" for a set from a break log
	SetName     string
	SetClosed   time.Time
	Table       Table
}

// ListPendingPrescriptions gives the proposals that wait for a coach, oldest first,
// without those of archived students. Coaches only.
func (s *Store) ListPendingPrescriptions(ctx context.Context, v Actor) ([]PendingPrescription, error) {
	return readInTransaction(ctx, s, v, "list the proposals", func(t *tx) ([]PendingPrescription, error) {
		if err := v.requireCoach(); err != nil {
			return nil, err
		}
		return t.loadPendingPrescriptions(ctx)
	})
}

func (t *tx) loadPendingPrescriptions(ctx context.Context) ([]PendingPrescription, error) {
	rows, err := t.ListPendingPrescriptions(ctx)
	if err != nil {
		return nil, err
	}
	pending := make([]PendingPrescription, 0, len(rows))
	for _, r := range rows {
		p, err := prescriptionFromRow(r.Prescription, r.Setup, r.Setup_2, r.Setup_2)
		if err != nil {
			return nil, err
		}
		pending = append(pending, PendingPrescription{
			Prescription: p, StudentName: r.StudentName, DrillName: r.DrillName, SetName: r.SetName,
			SetClosed: utcOrZero(r.ClosedAt), Table: tableFromRow(r.PoolTable),
		})
	}
	return pending, nil
}

// ListPrescriptions gives a student's prescriptions, newest first.
func (s *Store) ListPrescriptions(ctx context.Context, v Actor, student PersonID) ([]Prescription, error) {
	return readInTransaction(ctx, s, v, "list the prescriptions", func(t *tx) ([]Prescription, error) {
		if _, err := t.loadStudent(ctx, student); err != nil {
			return nil, err
		}
		return t.loadPrescriptions(ctx, []PersonID{student})
	})
}

func (t *tx) loadPrescriptions(ctx context.Context, students []PersonID) ([]Prescription, error) {
	rows, err := t.Queries.ListPrescriptions(ctx, plainUUIDs(students))
	if err != nil {
		return nil, err
	}
	list := make([]Prescription, 0, len(rows))
	for _, r := range rows {
		p, err := prescriptionFromRow(r.Prescription, r.Setup, r.Setup_2, r.Setup_3)
		if err != nil {
			return nil, err
		}
		list = append(list, p)
	}
	return list, nil
}

// prescriptionFromRow reads a row with its three setups: before, as proposed, and as
// it is to be done.
func prescriptionFromRow(r query.Prescription, before, proposed, after query.Setup) (Prescription, error) {
	p := Prescription{
		ID: PrescriptionID{r.ID}, Set: SetID{r.SetID}, Student: PersonID{r.StudentID},
		Proposal: Proposal{
			Rule: r.Rule, Variable: r.Variable, From: r.FromValue, To: r.ToValue, Unit: r.Unit,
			Reason: r.Reason, Expect: r.Expect, Caution: r.Caution,
		},
		State: State(r.State), Decision: State(valueOrZero(r.Decision)), DecidedBy: idOrZero[PersonID](r.DecidedBy),
		DecidedAt: utcOrZero(r.DecidedAt), DecisionNote: r.DecisionNote,
		Created: r.CreatedAt.UTC(), Superseded: utcOrZero(r.SupersededAt),
	}
	var err error
	for _, s := range []struct {
		into *drill.Setup
		row  query.Setup
	}{{&p.Before, before}, {&p.Setup, proposed}, {&p.After, after}} {
		if *s.into, err = setupFromRow(s.row); err != nil {
			return Prescription{}, err
		}
	}
	return p, nil
}
