package store

import (
	"context"
	"errors"
	"fmt"
	"reflect"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
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
// under the same revision, or another break of that number ([ErrConflict]); one change
// too many of the set's breaks ([ErrFull]).
// A higher revision of a deleted break brings it back.
func (s *Store) SaveBreak(ctx context.Context, v Actor, set SetID, b Break) (kept SaveOutcome, err error) {
	err = s.inTransaction(ctx, v, "save the break", func(t *tx) error {
		locked, there, err := t.lockForBreak(ctx, set, b.ID)
		if err != nil {
			return err
		}
		if had, err := b.checkRevision(set, there); had || err != nil {
			kept = BreakDuplicate
			return err
		}
		if err := b.checkInSet(locked); err != nil {
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

// keptBreak is a break as its row stands.
type keptBreak struct {
	Break
	set       SetID
	isVersion bool // it is what another break was, and counts for nothing
	isDeleted bool
	// deleteReason is why, "" when nobody said.
	deleteReason string
}

func keptBreakFromRow(row query.Break) (*keptBreak, error) {
	b, err := storedBreak(row)
	return &keptBreak{
		Break: b, set: SetID{row.SetID}, isVersion: row.VersionOf != nil, isDeleted: row.DeletedAt != nil, deleteReason: row.DeleteReason,
	}, err
}

// lockedSet is a set that nobody else can change before the transaction ends, with what
// its breaks are held against and counted in.
type lockedSet struct {
	query.BreakSet
	setup  drill.Setup
	kind   table.Kind
	window table.Window
	tally  Tally
}

func lockedSetFromRow(row query.LockSetRow) (lockedSet, error) {
	setup, err := setupFromRow(row.Setup)
	return lockedSet{
		BreakSet: row.BreakSet, setup: setup, kind: kindFromRow(row.PoolTable), window: windowFromRow(row.SetTally), tally: tallyFromRow(row.SetTally),
	}, err
}

// lockForBreak locks a set and finds a break that is to be written in it, deleted or
// not; nil when there is none.
func (t *tx) lockForBreak(ctx context.Context, set SetID, id BreakID) (locked lockedSet, there *keptBreak, err error) {
	setRow, err := t.LockSet(ctx, set.UUID)
	if err != nil {
		return lockedSet{}, nil, err
	}
	switch row, err := t.GetBreak(ctx, id.UUID); {
	case err == nil:
		if there, err = keptBreakFromRow(row); err != nil {
			return lockedSet{}, nil, err
		}
	case !errors.Is(err, pgx.ErrNoRows):
		return lockedSet{}, nil, err
	}
	locked, err = lockedSetFromRow(setRow)
	return locked, there, err
}

// checkRevision reports whether this revision of the break is there already, and refuses one
// that lost against what is there.
func (b Break) checkRevision(set SetID, there *keptBreak) (bool, error) {
	switch {
	case there == nil:
		return false, nil
	case there.set != set:
		return false, newRefusal(ErrConflict, "this break belongs to another set")
	case b.Revision > there.Revision:
		return false, nil
	case b.Revision < there.Revision || there.isDeleted:
		return false, newRefusal(ErrStale, "break %d was changed or deleted meanwhile", there.Number)
	}
	same, err := there.isSame(b.Break)
	if err == nil && !same {
		return false, newRefusal(ErrConflict, "break %d was changed in another place meanwhile", there.Number)
	}
	return same, err
}

// isSame reports whether this is the break that is kept, down to the grain in which
// rows are kept. The time is no part of it: a form that is sent twice at once is one
// break, whichever of the two comes first.
func (there *keptBreak) isSame(b drill.Break) (bool, error) {
	wanted, err := drillBreak(breakRow(b))
	wanted.At = there.At
	return reflect.DeepEqual(there.Break.Break, wanted), err
}

// maxRevision is more than anybody changes a break, and fits its column.
const maxRevision = 1_000_000_000

var errRevisionTooHigh = fieldProblem("revision", "no break was changed that often: reload this phone's page and save it again")

// checkInSet says why a break has no place in a set.
func (b Break) checkInSet(set lockedSet) error {
	if set.ClosedAt != nil {
		return ErrClosed
	}
	if b.Revision < 1 {
		return fieldProblem("revision", "revisions count from 1")
	}
	if b.Revision > maxRevision {
		return errRevisionTooHigh
	}
	if b.Number > set.Planned {
		return fieldProblem("break", fmt.Sprintf("this set has %d breaks; break %d goes into another set", set.Planned, b.Number))
	}
	return b.Check(set.setup, set.kind)
}

// saveBreak writes a break, and what it changes in the counts; there is what was kept
// of it so far, nil for nothing.
func (t *tx) saveBreak(ctx context.Context, set lockedSet, there *keptBreak, b Break) error {
	r := breakRow(b.Break)
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
	if err := t.adjustTally(ctx, set, there, &kept); err != nil {
		return err
	}
	return t.announceSetChange(ctx, set.BreakSet)
}

// keepVersion keeps what was there before a break takes its place, when that says
// something else of it, or when it was out of its set. Its number alone is no part of what
// was seen.
func (t *tx) keepVersion(ctx context.Context, there *keptBreak, b Break) error {
	if there == nil {
		return nil
	}
	reason := b.changedFor
	if there.isDeleted {
		reason = there.deleteReason
	} else {
		seen := b.Break
		seen.Number = there.Number
		if same, err := there.isSame(seen); err != nil || same {
			return err
		}
	}
	if err := t.KeepBreakVersion(ctx, query.KeepBreakVersionParams{BreakID: there.ID.UUID, VersionID: newUUID(), Reason: reason}); err != nil {
		return err
	}
	return t.requireRoom(ctx, RoomForStruck, there.set.UUID)
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
		locked, there, err := t.lockForBreak(ctx, set, id)
		switch {
		case err != nil:
			return err
		case there == nil || there.set != set:
			return ErrNotFound
		case there.isDeleted && revision <= there.Revision:
			return nil
		case revision <= there.Revision:
			return newRefusal(ErrStale, "break %d was changed meanwhile", there.Number)
		case locked.ClosedAt != nil:
			return ErrClosed
		}
		return t.strikeBreak(ctx, locked, there, revision, reason)
	})
}

// strikeBreak takes a break out that is there, as a revision of it.
func (t *tx) strikeBreak(ctx context.Context, set lockedSet, there *keptBreak, revision int, reason string) error {
	err := t.Queries.DeleteBreak(ctx, query.DeleteBreakParams{
		ID: there.ID.UUID, Revision: revision, DeleteReason: reason, EditedBy: uuidOrNull(t.actor.editorID()),
	})
	if err != nil {
		return err
	}
	if err := t.requireRoom(ctx, RoomForStruck, there.set.UUID); err != nil {
		return err
	}
	if err := t.adjustTally(ctx, set, there, nil); err != nil {
		return err
	}
	return t.announceSetChange(ctx, set.BreakSet)
}

func checkReason(reason string) error {
	if says := drill.CheckNote(reason, drill.MaxName); says != "" {
		return fieldProblem("reason", says)
	}
	return nil
}
