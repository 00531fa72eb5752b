package store

import (
	"context"
	"encoding/json"
	"fmt"
	"time"

	"breakwright/internal/coaching"
	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// State is how far a prescription has come.
type State = coaching.State

// The states; [coaching.State] says what leads to which.
const (
	Proposed     = coaching.Proposed
	Approved     = coaching.Approved
	Changed      = coaching.Changed
	Declined     = coaching.Declined
	Own          = coaching.Own
	InTrial      = coaching.InTrial
	Helped       = coaching.Helped
	NoDifference = coaching.NoDifference
	Hurt         = coaching.Hurt
	Superseded   = coaching.Superseded
	Withdrawn    = coaching.Withdrawn
)

// Proposal is the one change that advice asks for, in words and as a setup. The
// setup it changes is that of the set. A coach's own change has none: then all
// of it is zero.
type Proposal struct {
	// Rule, Variable, From, To and Unit are the adviser's; kept to explain the
	// change years later. Rule, Variable and Reason must not be empty.
	Rule, Variable, From, To, Unit string
	Reason, Expect, Caution        string
	// Wording is what they say, as data.
	Wording say.Proposal
	// Count of Of breaks (or misses) ask for it; Of is 0 where nothing is counted.
	Count, Of int
	// Setup is the whole setup with the change made, the right way round for
	// the student.
	Setup drill.Setup
}

// Prescription is the one record of a change: what was proposed, decided, told,
// played, and what came of it.
//
// The adviser proposes, a coach decides ([ErrNotAllowed] for a student); its student
// reads it, to other students it is [ErrNotFound]. A second and different answer is an
// [ErrConflict]. What was decided is kept for good; a proposal goes only with the
// advice of a set that is opened again.
type Prescription struct {
	ID      PrescriptionID
	Set     SetID
	Student PersonID
	// Kind is the kind of table it is for, that of Set.
	Kind table.Kind
	Proposal
	// Before is the setup of the set, Proposal.Setup what was proposed, and
	// After what a student is to do: the coach's when they chose it, else the
	// proposed one.
	Before, After drill.Setup
	State         State
	// Decision is Approved, Changed, Declined or Own, "" before it is made.
	Decision  State
	DecidedBy PersonID
	DecidedAt time.Time
	// DecisionNote is the coach's word with the decision; one that was taken back keeps
	// it for the next.
	DecisionNote string
	Created      time.Time
	// FirstSet is the first set that carried it; zero before.
	FirstSet   SetID
	FirstSetAt time.Time
	// Superseded says when something took its place before it came to an end,
	// and Because what; the zero time and "" when nothing did.
	Superseded time.Time
	Because    coaching.SupersededBy
	// Counts are those since it is tried, in what the change is about.
	Counts coaching.Counts
}

// ShownNote is the coach's word as it is told: "" while nothing is decided.
func (p Prescription) ShownNote() string {
	if p.Decision == "" {
		return ""
	}
	return p.DecisionNote
}

// IsOwn reports whether it is the coach's own change, with no proposal.
func (p Prescription) IsOwn() bool { return p.Decision == Own }

// PendingPrescription is a proposal that waits for a coach.
type PendingPrescription struct {
	Prescription
	StudentName string
	DrillName   string // "" for a set from a break log
	SetName     string
	SetStarted  time.Time
	Table       Table
}

// ListPendingPrescriptions returns the proposals that wait for a coach, oldest first,
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
			SetStarted: r.StartedAt.UTC(), Table: tableFromRow(r.PoolTable),
		})
	}
	return pending, nil
}

// ListPrescriptions returns a student's prescriptions, newest first.
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
		ID: PrescriptionID{r.ID}, Set: SetID{r.SetID}, Student: PersonID{r.StudentID}, Kind: kindOfChange(r),
		Proposal: Proposal{
			Rule: r.Rule, Variable: r.Variable, From: r.FromValue, To: r.ToValue, Unit: r.Unit,
			Reason: r.Reason, Expect: r.Expect, Caution: r.Caution, Count: valueOrZero(r.FactCount), Of: valueOrZero(r.FactOf),
		},
		State: State(r.State), Decision: State(valueOrZero(r.Decision)), DecidedBy: idOrZero[PersonID](r.DecidedBy),
		DecidedAt: utcOrZero(r.DecidedAt), DecisionNote: r.DecisionNote, Created: r.CreatedAt.UTC(),
		FirstSet: idOrZero[SetID](r.ToldSetID), FirstSetAt: utcOrZero(r.ToldAt),
		Superseded: utcOrZero(r.SupersededAt), Because: coaching.SupersededBy(valueOrZero(r.SupersededBecause)),
		Counts: countsFromRow(r),
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
	if r.ToSetupID == nil {
		p.Setup = drill.Setup{}
	}
	if p.Wording, err = readProposal(r); err != nil {
		return Prescription{}, err
	}
	return p, nil
}

// readProposal reads what a proposal says. Of one from before that was kept,
// the words are all there is.
func readProposal(r query.Prescription) (proposal say.Proposal, err error) {
	if r.Said == nil {
		return say.Proposal{Reason: say.KeptWords(r.Reason), Expect: say.KeptWords(r.Expect), Caution: say.KeptWords(r.Caution)}, nil
	}
	if err := json.Unmarshal(r.Said, &proposal); err != nil {
		return proposal, fmt.Errorf("store: read what a proposal says: %w", err)
	}
	return proposal, nil
}

func kindOfChange(r query.Prescription) table.Kind {
	return table.Kind{Feet: r.Feet, Small: r.Small, CornerMouth: table.Inches(r.CornerIn), SideMouth: table.Inches(r.SideIn)}
}

func countsFromRow(r query.Prescription) coaching.Counts {
	return coaching.Counts{
		Measure: r.Measure, Before: r.CountBefore, OfBefore: r.OfBefore, Since: r.CountSince, OfSince: r.OfSince,
	}
}
