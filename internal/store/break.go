package store

import (
	"context"
	"errors"
	"fmt"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// Break is a break of a set with its id and revision, both made by whoever
// records it: the first revision is 1, and every change counts one up.
//
// Whoever may record its set may write it ([ErrNotFound] for anybody else,
// [ErrClosed] once the set is closed, [ErrStale] and [ErrConflict] when another
// revision was first); in a closed set a coach corrects it. What was taken out or
// corrected is kept with its reason.
type Break struct {
	ID       BreakID
	Revision int
	drill.Break
	// EditedBy is the coach who wrote this revision, zero for the student.
	EditedBy PersonID
	// changedFor is why it takes the place of what was kept, "" when nobody said.
	changedFor string
}

// SaveOutcome says what became of a break that was sent.
type SaveOutcome string

// The two good answers.
const (
	BreakAccepted  SaveOutcome = "accepted"
	BreakDuplicate SaveOutcome = "had" // the very same was kept before
)

// SaveBreak keeps a break of a set, new or changed. It is safe to send again,
// even after the set was closed: the same id, revision and content is [BreakDuplicate].
//
// Refused are, with words for the one who records: a break that cannot have
// happened or has no place in the set ([drill.Problems]); a set that is closed
// ([ErrClosed]); a revision older than the one kept ([ErrStale]); other content
// under the same revision, or another break of that number ([ErrConflict]).
// A higher revision of a deleted break brings it back.
func (s *Store) SaveBreak(ctx context.Context, v Actor, set SetID, b Break) (kept SaveOutcome, err error) {
	err = s.inTransaction(ctx, v, "save the break", func(t *tx) error {
		locked, err := t.LockSet(ctx, set.UUID)
		if err != nil {
			return err
		}
		there, err := t.findBreakRow(ctx, b.ID)
		if err != nil {
			return err
		}
		if had, err := b.checkRevision(set, there); had || err != nil {
			kept = BreakDuplicate
			return err
		}
		if err := checkBreak(locked, b); err != nil {
			return err
		}
		kept = BreakAccepted
		return t.saveBreak(ctx, locked, there, b)
	})
	if err != nil {
		return "", err
	}
	return kept, nil
}

// findBreakRow gives the row of a break, deleted or not; nil when there is none.
func (t *tx) findBreakRow(ctx context.Context, id BreakID) (*query.Break, error) {
	there, err := t.GetBreak(ctx, id.UUID)
	if errors.Is(err, pgx.ErrNoRows) {
		return nil, nil
	}
	return &there, err
}

// checkRevision reports whether this revision of the break is there already, and refuses one
// that lost against what is there.
func (b Break) checkRevision(set SetID, there *query.Break) (bool, error) {
	switch {
	case there == nil:
		return false, nil
	case there.SetID != set.UUID:
		return false, newRefusal(ErrConflict, "this break belongs to another set")
	case b.Revision > there.Revision:
		return false, nil
	case b.Revision < there.Revision || there.DeletedAt != nil:
		return false, newRefusal(ErrStale, "break %d was changed or deleted meanwhile", there.Number)
	}
	same, err := sameBreak(*there, b.Break)
	if err == nil && !same {
		return false, newRefusal(ErrConflict, "break %d was changed in another place meanwhile", there.Number)
	}
	return same, err
}

// maxRevision is more than anybody changes a break, and fits its column.
const maxRevision = 1_000_000_000

var errRevisionTooHigh = fieldProblem("revision", "no break was changed that often: reload this phone's page and save it again")

func checkBreak(set query.LockSetRow, b Break) error {
	if set.BreakSet.ClosedAt != nil {
		return ErrClosed
	}
	if b.Revision < 1 {
		return fieldProblem("revision", "revisions count from 1")
	}
	if b.Revision > maxRevision {
		return errRevisionTooHigh
	}
	if planned := set.BreakSet.Planned; b.Number > planned {
		return fieldProblem("break", fmt.Sprintf("this set has %d breaks; break %d goes into another set", planned, b.Number))
	}
	kind := kindFromRow(set.PoolTable)
	setup, err := setupFromRow(set.Setup)
	if err != nil {
		return err
	}
	return b.Check(setup, kind)
}

// saveBreak writes a break, and what it changes in the counts; there is its row
// so far, nil for none.
func (t *tx) saveBreak(ctx context.Context, locked query.LockSetRow, there *query.Break, b Break) error {
	set, r := locked.BreakSet, breakRow(b.Break)
	b.EditedBy = t.actor.editorID()
	if err := t.keepVersion(ctx, there, b); err != nil {
		return err
	}
	err := t.upsertBreak(ctx, Set{ID: SetID{set.ID}, Student: PersonID{set.StudentID}}, r, b)
	if violatesUnique(err, "break_number") {
		return newRefusal(ErrConflict, "break %d is recorded already", b.Number)
	}
	if err != nil {
		return err
	}
	// As it will be read back: times and places at the grain of the row.
	kept, err := drillBreak(r)
	if err != nil {
		return err
	}
	if err := t.adjustTally(ctx, locked, there, &kept); err != nil {
		return err
	}
	return t.announceSetChange(ctx, set)
}

// upsertBreak writes the row of a break as this revision of it.
func (t *tx) upsertBreak(ctx context.Context, set Set, r query.Break, b Break) error {
	r.ClubID, r.ID, r.SetID, r.StudentID = t.actor.Club.UUID, b.ID.UUID, set.ID.UUID, set.Student.UUID
	r.Revision, r.EditedBy = b.Revision, uuidOrNull(b.EditedBy)
	return t.UpsertBreak(ctx, upsertBreakRow(r))
}

// announceSetChange counts the change and tells it.
func (t *tx) announceSetChange(ctx context.Context, set query.BreakSet) error {
	t.queueEvent(BreakSaved, PersonID{set.StudentID}, SetID{set.ID})
	_, err := t.BumpSetRevision(ctx, set.ID)
	return err
}

// DeleteBreak takes a break out of its set, with a reason for the record, as
// one more revision of it: revision must be above the one kept. It leaves a gap
// that a later break of that number may fill. Repeating it is harmless;
// [ErrStale] and [ErrClosed] as for SaveBreak.
func (s *Store) DeleteBreak(ctx context.Context, v Actor, set SetID, id BreakID, revision int, reason string) error {
	return s.inTransaction(ctx, v, "delete the break", func(t *tx) error {
		if err := checkReason(reason); err != nil {
			return err
		}
		if revision > maxRevision {
			return errRevisionTooHigh
		}
		locked, err := t.LockSet(ctx, set.UUID)
		if err != nil {
			return err
		}
		there, err := t.GetBreak(ctx, id.UUID)
		switch {
		case err != nil:
			return err
		case there.SetID != set.UUID:
			return ErrNotFound
		case there.DeletedAt != nil && revision <= there.Revision:
			return nil
		case revision <= there.Revision:
			return newRefusal(ErrStale, "break %d was changed meanwhile", there.Number)
		case locked.BreakSet.ClosedAt != nil:
			return ErrClosed
		}
		return t.strikeBreak(ctx, locked, there, revision, reason)
	})
}

// strikeBreak takes a break out that is there, as a revision of it.
func (t *tx) strikeBreak(ctx context.Context, locked query.LockSetRow, there query.Break, revision int, reason string) error {
	err := t.Queries.DeleteBreak(ctx, query.DeleteBreakParams{
		ID: there.ID, Revision: revision, DeleteReason: reason, EditedBy: uuidOrNull(t.actor.editorID()),
	})
	if err != nil {
		return err
	}
	if err := t.adjustTally(ctx, locked, &there, nil); err != nil {
		return err
	}
	return t.announceSetChange(ctx, locked.BreakSet)
}

func checkReason(reason string) error {
	if len(reason) > drill.MaxName {
		return fieldProblem("reason", "a few words are enough")
	}
	return nil
}
