package store

import (
	"context"
	"time"

	"breakwright/internal/coaching"
	"breakwright/internal/store/internal/query"
)

// ReopenWithin is how long after it was closed a set can be opened again.
const ReopenWithin = 10 * time.Minute

// errReopenTooLate is for a set that was closed some time ago.
var errReopenTooLate = newRefusal(ErrConflict, "a set can be opened again for ten minutes after it was closed; now it stays as it is")

// ReopenSet opens a set again that was closed by mistake within [ReopenWithin].
// What was said about it goes, and what it had ended is as before: a change in
// trial is in trial again, an older proposal waits again. An open set stays
// open. [ErrConflict] when it is too late, or a coach has decided on what the
// set says.
func (s *Store) ReopenSet(ctx context.Context, v Actor, id SetID) error {
	return s.inTransaction(ctx, v, "open the set again", func(t *tx) error {
		set, err := t.lockStudentsSet(ctx, id)
		if err != nil || set.Closed.IsZero() {
			return err
		}
		if time.Since(set.Closed) > ReopenWithin {
			return errReopenTooLate
		}
		if err := t.reopenClosed(ctx, set); err != nil {
			return err
		}
		t.queueEvent(BreakSaved, set.Student, id)
		return nil
	})
}

// lockStudentsSet locks the student and then the set, as closing does, and returns
// the set as it is now.
func (t *tx) lockStudentsSet(ctx context.Context, id SetID) (Set, error) {
	set, err := t.loadSet(ctx, id)
	if err != nil {
		return Set{}, err
	}
	if err := t.LockUntilCommit(ctx, set.Student.String()); err != nil {
		return Set{}, err
	}
	if _, err := t.LockSet(ctx, id.UUID); err != nil {
		return Set{}, err
	}
	return t.loadSet(ctx, id)
}

// reopenClosed makes a locked, closed set an open one.
func (t *tx) reopenClosed(ctx context.Context, set Set) error {
	err := t.inBook(ctx, set.Student, func(b *changeBook) error {
		return b.ReopenSet(coaching.ID(set.ID.UUID), presentTime())
	})
	if err != nil {
		return err
	}
	if err := t.asAdviser(ctx, set.Student, func() error { return t.DeleteAdvice(ctx, set.ID.UUID) }); err != nil {
		return err
	}
	if err := t.ReopenClosedSet(ctx, set.ID.UUID); err != nil {
		return err
	}
	return t.regroupStintsAround(ctx, set)
}

// takeBackStart gives back what the beginning of a set changed in the student's book.
func (t *tx) takeBackStart(ctx context.Context, set Set) error {
	return t.inBook(ctx, set.Student, func(b *changeBook) error {
		b.TakeBackStart(coaching.ID(set.ID.UUID), presentTime())
		return nil
	})
}

// regroupStintsAround takes a set out of its stint and groups the stints anew from the one
// before: those before and after it may become one, and a set that is closed and holds
// breaks is put where it belongs.
func (t *tx) regroupStintsAround(ctx context.Context, set Set) error {
	from, sets, breaks, err := t.findRegroupStart(ctx, set.Student, set.ID.UUID, set.Started)
	if err != nil {
		return err
	}
	if err := t.LeaveStint(ctx, set.ID.UUID); err != nil {
		return err
	}
	before, err := t.FindEarlierStint(ctx, query.FindEarlierStintParams{StudentID: set.Student.UUID, StartedAt: from.started, SetID: from.id})
	switch {
	case err == nil:
		from = setPosition{before.FirstStartedAt, before.ID}
		sets, breaks = before.SetsBefore, before.BreaksBefore
	case !isNoRow(err):
		return err
	}
	return t.regroupStintsFrom(ctx, set.Student, from, sets, breaks)
}
