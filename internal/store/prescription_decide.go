package store

import (
	"cmp"
	"context"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/coaching"
	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
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
	return s.changeAsCoach(ctx, v, "decide on the prescription", func(t *tx) error { return t.decidePrescription(ctx, id, d) })
}

func (t *tx) decidePrescription(ctx context.Context, id PrescriptionID, d Decision) error {
	b, c, err := t.lockBookOf(ctx, id)
	if err != nil {
		return err
	}
	if err := d.validateFor(c.Kind); err != nil {
		return err
	}
	err = b.Decide(c.ID, coaching.Decision{
		Decision: d.Answer, Setup: d.Setup, Note: d.Note, By: coaching.ID(t.actor.Person.UUID), At: presentTime(),
	})
	if err != nil {
		return refuseAsConflict(err)
	}
	t.queueEvent(PrescriptionDecided, b.student, SetID{uuid.UUID(c.Set)})
	return t.saveBook(ctx, b)
}

// lockBookOf locks the student of a change and reads their book.
func (t *tx) lockBookOf(ctx context.Context, id PrescriptionID) (*changeBook, coaching.Change, error) {
	student, err := t.FindStudentOfChange(ctx, id.UUID)
	if err != nil {
		return nil, coaching.Change{}, err
	}
	if err := t.LockUntilCommit(ctx, student.String()); err != nil {
		return nil, coaching.Change{}, err
	}
	b, err := t.loadBook(ctx, PersonID{student})
	if err != nil {
		return nil, coaching.Change{}, err
	}
	return b, *b.Find(coaching.ID(id.UUID)), nil
}

func (d Decision) validateFor(k table.Kind) error {
	if err := validateNote(d.Note); err != nil {
		return err
	}
	switch d.Answer {
	case Approved, Declined:
		return nil
	case Changed:
		return d.Setup.Check(k)
	}
	return fieldProblem("answer", "approve the change, change it or decline it")
}

func validateNote(note string) error {
	if says := drill.CheckNote(note, drill.MaxNote); says != "" {
		return fieldProblem("note", says)
	}
	return nil
}

// OwnChange is a coach's own change, with no proposal.
type OwnChange struct {
	ID PrescriptionID // made by the form, so that a second click does nothing
	// Set is the closed set that it is made from: the change is from its setup,
	// for its drill and its kind of table.
	Set   SetID
	Setup drill.Setup
	Note  string
}

// FindSetToChange returns the set that a change is made from by who looks at another:
// the student's latest closed set of that drill, or under that setup, on that kind of
// table. A change from an older one would say "instead of" what is broken no more.
// [ErrNotFound] where nothing was broken. Coaches only.
func (s *Store) FindSetToChange(ctx context.Context, v Actor, seen SetID) (SetID, error) {
	return readInTransaction(ctx, s, v, "find the set to change", func(t *tx) (SetID, error) {
		if err := v.requireCoach(); err != nil {
			return SetID{}, err
		}
		id, err := t.Queries.FindSetToChange(ctx, seen.UUID)
		return SetID{id}, err
	})
}

// DecideOwnChange prescribes a coach's own change. What is open for the student
// on that kind of table gives way to it. The same one again is harmless.
// [ErrConflict] for a set that is open, of no drill, or not the one of
// [Store.FindSetToChange]. Coaches only.
func (s *Store) DecideOwnChange(ctx context.Context, v Actor, own OwnChange) error {
	own.ID = idOrNew(own.ID)
	return s.changeAsCoach(ctx, v, "prescribe a change", func(t *tx) error {
		set, err := t.loadSet(ctx, own.Set)
		if err != nil {
			return err
		}
		switch {
		case set.Closed.IsZero():
			return newRefusal(ErrConflict, "this set is still open: its change can be decided once it is closed")
		case IsZero(set.Drill.ID):
			return newRefusal(ErrConflict, "this set is of no drill, so that no next set would carry a change: assign one first")
		}
		if err := validateNote(own.Note); err != nil {
			return err
		}
		if err := own.Setup.Check(set.Table.Kind); err != nil {
			return err
		}
		return t.writeOwnChange(ctx, set, own)
	})
}

func (t *tx) writeOwnChange(ctx context.Context, set Set, own OwnChange) error {
	if err := t.LockUntilCommit(ctx, set.Student.String()); err != nil {
		return err
	}
	b, err := t.loadBook(ctx, set.Student)
	if err != nil {
		return err
	}
	id, now := coaching.ID(own.ID.UUID), presentTime()
	repeated := b.Find(id) != nil
	if latest, err := t.Queries.FindSetToChange(ctx, set.ID.UUID); !repeated && (err != nil || latest != set.ID.UUID) {
		return cmp.Or(err, newRefusal(ErrConflict, "a newer set was closed meanwhile: make the change from that one"))
	}
	err = b.DecideOwn(coaching.Change{
		ID: id, Set: coaching.ID(set.ID.UUID), Lineage: coaching.ID(set.Drill.Lineage.UUID), Kind: set.Table.Kind, Before: set.Setup,
	}, coaching.Decision{Setup: own.Setup, Note: own.Note, By: coaching.ID(t.actor.Person.UUID), At: now})
	if err != nil || repeated {
		return refuseAsConflict(err)
	}
	before, err := t.ensureSetup(ctx, set.Setup)
	if err != nil {
		return err
	}
	chosen, err := t.ensureBothWays(ctx, own.Setup)
	if err != nil {
		return err
	}
	if err := t.saveBook(ctx, b); err != nil {
		return err
	}
	k := set.Table.Kind
	t.queueEvent(PrescriptionDecided, set.Student, set.ID)
	return t.InsertOwnChange(ctx, query.InsertOwnChangeParams{
		ClubID: t.actor.Club.UUID, ID: own.ID.UUID, SetID: set.ID.UUID, StudentID: set.Student.UUID,
		Feet: k.Feet, Small: k.Small, CornerIn: float64(k.CornerMouth), SideIn: float64(k.SideMouth), FromSetupID: before,
		DecidedBy: t.actor.Person.UUID, DecidedAt: now, DecisionNote: own.Note, DecidedSetupID: chosen,
	})
}

// ReopenDecision takes a decision back, until the next set under it has begun: a
// proposal waits for an answer again, a coach's own change is withdrawn. What a set
// says that was closed while the decision stood is said anew, and then what was proposed
// before can give way to it. Doing it twice is harmless; too late it is an [ErrConflict].
// Coaches only.
func (s *Store) ReopenDecision(ctx context.Context, v Actor, id PrescriptionID, judge Judge) error {
	return s.changeAsCoach(ctx, v, "take the decision back", func(t *tx) error { return t.reopenDecision(ctx, id, judge) })
}

func (t *tx) reopenDecision(ctx context.Context, id PrescriptionID, judge Judge) error {
	b, c, err := t.lockBookOf(ctx, id)
	if err != nil || c.Decision == "" || c.State == Withdrawn { // a second click
		return err
	}
	last, err := t.loadLastStarts(ctx, b.student)
	if err != nil {
		return err
	}
	if err := b.Reopen(c.ID, last[startedOn{b.student, c.Kind}]); err != nil {
		return refuseAsConflict(err)
	}
	t.queueEvent(PrescriptionDecided, b.student, SetID{uuid.UUID(c.Set)})
	if err := t.saveBook(ctx, b); err != nil {
		return err
	}
	return t.adviseAnewSince(ctx, b.student, c, judge)
}

// adviseAnewSince says anew what the last set says that was closed on the decision's
// kind of table while it stood: the adviser was told of it.
func (t *tx) adviseAnewSince(ctx context.Context, student PersonID, decided coaching.Change, judge Judge) error {
	k := decided.Kind
	id, err := t.FindSetClosedSince(ctx, query.FindSetClosedSinceParams{
		StudentID: student.UUID, Feet: k.Feet, Small: k.Small, CornerIn: float64(k.CornerMouth), SideIn: float64(k.SideMouth), Since: decided.DecidedAt,
	})
	if isNoRow(err) {
		return nil
	}
	if err != nil {
		return err
	}
	set, err := t.lockStudentsSet(ctx, SetID{id})
	if err != nil {
		return err
	}
	if err := t.reopenClosed(ctx, set); err != nil {
		return err
	}
	return t.closeLockedSet(ctx, set, &set.Closed, judge)
}

// CanReopenDecision reports whether a decision can still be taken back. Coaches
// only.
func (s *Store) CanReopenDecision(ctx context.Context, v Actor, id PrescriptionID) (bool, error) {
	return readInTransaction(ctx, s, v, "look at the decision", func(t *tx) (bool, error) {
		if err := v.requireCoach(); err != nil {
			return false, err
		}
		student, err := t.FindStudentOfChange(ctx, id.UUID)
		if err != nil {
			return false, err
		}
		b, err := t.loadBook(ctx, PersonID{student})
		if err != nil {
			return false, err
		}
		c := b.Find(coaching.ID(id.UUID))
		last, err := t.loadLastStarts(ctx, b.student)
		return b.CanReopen(c.ID, last[startedOn{b.student, c.Kind}]), err
	})
}

// startedOn is a student on a kind of table.
type startedOn struct {
	student PersonID
	kind    table.Kind
}

// loadLastStarts returns when students last began a set on each kind of table; the
// zero time before the first.
func (t *tx) loadLastStarts(ctx context.Context, students ...PersonID) (map[startedOn]time.Time, error) {
	rows, err := t.ListLastStarts(ctx, plainUUIDs(students))
	last := make(map[startedOn]time.Time, len(rows))
	for _, r := range rows {
		k := table.Kind{Feet: r.Feet, Small: r.Small, CornerMouth: table.Inches(r.CornerIn), SideMouth: table.Inches(r.SideIn)}
		last[startedOn{PersonID{r.StudentID}, k}] = r.StartedAt
	}
	return last, err
}

// DecidedChange is a decision with whom it is for and who made it.
type DecidedChange struct {
	Prescription
	StudentName, CoachName string
	CanReopen              bool
}

// maxDecided keeps a page that lists decisions short.
const maxDecided = 60

// ListDecidedSince returns what coaches decided since a moment, newest first,
// without what was taken back. Coaches only.
func (s *Store) ListDecidedSince(ctx context.Context, v Actor, since time.Time) ([]DecidedChange, error) {
	return readInTransaction(ctx, s, v, "list the decisions", func(t *tx) ([]DecidedChange, error) {
		if err := v.requireCoach(); err != nil {
			return nil, err
		}
		rows, err := t.Queries.ListDecidedSince(ctx, query.ListDecidedSinceParams{Since: since, Most: maxDecided})
		if err != nil {
			return nil, err
		}
		list, students := make([]DecidedChange, len(rows)), make([]PersonID, len(rows))
		for i, r := range rows {
			p, err := prescriptionFromRow(r.Prescription, r.Setup, r.Setup_2, r.Setup_3)
			if err != nil {
				return nil, err
			}
			list[i], students[i] = DecidedChange{Prescription: p, StudentName: r.StudentName, CoachName: r.CoachName}, p.Student
		}
		return list, t.markReopenable(ctx, list, students)
	})
}

// markReopenable says of decisions of the students which can still be taken back.
func (t *tx) markReopenable(ctx context.Context, list []DecidedChange, students []PersonID) error {
	changes, err := t.loadChangeRecords(ctx, students)
	if err != nil {
		return err
	}
	last, err := t.loadLastStarts(ctx, students...)
	for i := range list {
		one := &list[i]
		book := changes[one.Student]
		one.CanReopen = book.CanReopen(coaching.ID(one.ID.UUID), last[startedOn{one.Student, one.Kind}])
	}
	return err
}
