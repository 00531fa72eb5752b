package store

import (
	"context"
	"errors"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/coaching"
	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// What happens to a student's changes is decided in package coaching: here the
// book is read, something happens in it, and what is another then is written.
// The student must be locked.

// changeBook is a student's book with the rows it was read from.
type changeBook struct {
	coaching.Book
	student PersonID
	rows    map[coaching.ID]query.Prescription
	before  map[coaching.ID]coaching.Change
}

// loadBook reads all changes of a student.
func (t *tx) loadBook(ctx context.Context, student PersonID) (*changeBook, error) {
	rows, err := t.ListBook(ctx, []uuid.UUID{student.UUID})
	if err != nil {
		return nil, err
	}
	b := &changeBook{student: student, rows: map[coaching.ID]query.Prescription{}, before: map[coaching.ID]coaching.Change{}}
	for _, r := range rows {
		c, _, err := changeFromRow(r)
		if err != nil {
			return nil, err
		}
		b.Changes = append(b.Changes, c)
		b.rows[c.ID], b.before[c.ID] = r.Prescription, c
	}
	return b, nil
}

// changeRecords are all changes of a student, to be read.
type changeRecords struct {
	coaching.Book
	records map[coaching.ID]Prescription
}

// loadChangeRecords reads all changes of students.
func (t *tx) loadChangeRecords(ctx context.Context, students []PersonID) (map[PersonID]changeRecords, error) {
	rows, err := t.ListBook(ctx, plainUUIDs(students))
	if err != nil {
		return nil, err
	}
	all := make(map[PersonID]changeRecords, len(students))
	for _, r := range rows {
		c, p, err := changeFromRow(r)
		if err != nil {
			return nil, err
		}
		one := all[p.Student]
		if one.records == nil {
			one.records = map[coaching.ID]Prescription{}
		}
		one.Changes, one.records[c.ID] = append(one.Changes, c), p
		all[p.Student] = one
	}
	return all, nil
}

// changeFromRow returns a change as package coaching knows it, and as it is kept.
func changeFromRow(r query.ListBookRow) (coaching.Change, Prescription, error) {
	p, err := prescriptionFromRow(r.Prescription, r.Setup, r.Setup_2, r.Setup_3)
	if err != nil {
		return coaching.Change{}, Prescription{}, err
	}
	c := changeOf(p, DrillID{valueOrZero(r.Lineage)})
	c.By = coaching.ID(valueOrZero(r.Prescription.SupersededBy))
	c.Last = coaching.ID(valueOrZero(r.Prescription.LastSetID))
	return c, p, nil
}

// Change returns the prescription as package coaching knows it, without its drill.
func (p Prescription) Change() coaching.Change { return changeOf(p, DrillID{}) }

// changeOf returns a prescription as package coaching knows it.
func changeOf(p Prescription, lineage DrillID) coaching.Change {
	c := coaching.Change{
		ID: coaching.ID(p.ID.UUID), Set: coaching.ID(p.Set.UUID), Lineage: coaching.ID(lineage.UUID), Kind: p.Kind,
		Rule: p.Rule, Count: p.Count, Of: p.Of, Before: p.Before, Proposed: p.Setup, Created: p.Created,
		State: p.State, Decision: p.Decision, DecidedBy: coaching.ID(p.DecidedBy.UUID), DecidedAt: p.DecidedAt, Note: p.DecisionNote,
		FirstSet: coaching.ID(p.FirstSet.UUID), FirstSetAt: p.FirstSetAt, SupersededAt: p.Superseded, Because: p.Because, Counts: p.Counts,
	}
	if p.Decision == Changed || p.Decision == Own {
		c.Chosen = p.After
	}
	return c
}

// saveBook writes what is another than when the book was read; what is new must
// be written already. What goes and what closes is written before what opens,
// since only one may be open.
func (t *tx) saveBook(ctx context.Context, b *changeBook) error {
	for id := range b.before {
		if b.Find(id) == nil {
			if err := t.DeleteProposal(ctx, uuid.UUID(id)); err != nil {
				return err
			}
		}
	}
	for _, opens := range []bool{false, true} {
		for _, c := range b.Changes {
			was, there := b.before[c.ID]
			if !there || was == c || c.State.IsOpen() != opens {
				continue
			}
			if err := t.updateChange(ctx, c); err != nil {
				return err
			}
		}
	}
	return nil
}

// inBook lets something happen in a student's book and writes what came of it, as
// the adviser.
func (t *tx) inBook(ctx context.Context, student PersonID, happens func(*changeBook) error) error {
	b, err := t.loadBook(ctx, student)
	if err != nil {
		return err
	}
	if err := happens(b); err != nil {
		return refuseAsConflict(err)
	}
	return t.asAdviser(ctx, student, func() error { return t.saveBook(ctx, b) })
}

func (t *tx) updateChange(ctx context.Context, c coaching.Change) error {
	row := query.UpdateChangeParams{
		ID: uuid.UUID(c.ID), State: string(c.State), Decision: pointerOrNil(string(c.Decision)),
		DecidedBy: pointerOrNil(uuid.UUID(c.DecidedBy)), DecidedAt: pointerOrNil(c.DecidedAt), DecisionNote: c.Note,
		ToldSetID: pointerOrNil(uuid.UUID(c.FirstSet)), ToldAt: pointerOrNil(c.FirstSetAt),
		SupersededAt: pointerOrNil(c.SupersededAt), SupersededBecause: pointerOrNil(string(c.Because)),
		SupersededBy: pointerOrNil(uuid.UUID(c.By)), LastSetID: pointerOrNil(uuid.UUID(c.Last)), Measure: c.Counts.Measure,
		CountBefore: c.Counts.Before, OfBefore: c.Counts.OfBefore, CountSince: c.Counts.Since, OfSince: c.Counts.OfSince,
	}
	if c.Chosen != (drill.Setup{}) {
		id, err := t.ensureBothWays(ctx, c.Chosen)
		if err != nil {
			return err
		}
		row.DecidedSetupID = &id
	}
	return t.UpdateChange(ctx, row)
}

// refuseAsConflict turns a refusal of package coaching into the store's own.
func refuseAsConflict(err error) error {
	var refusal coaching.Refusal
	if errors.As(err, &refusal) {
		return newRefusal(ErrConflict, "%s", string(refusal))
	}
	return err
}

// presentTime is now at the grain in which PostgreSQL keeps it, so that a record
// is the same after it was written.
func presentTime() time.Time { return time.Now().UTC().Truncate(time.Microsecond) }
