package store

import (
	"context"
)

// undoneAtOnce is the reason that pages give for a break that was undone before
// the next one: it leaves no mark worth keeping.
const undoneAtOnce = "undone at once"

// DiscardSet removes an open set without a break, for example one begun by a
// slip of the thumb. [ErrClosed] when it is closed, [ErrConflict] when it holds
// a break, one that was taken out with a reason, or a message: a record stays.
// [ErrNotFound] when it is gone already.
func (s *Store) DiscardSet(ctx context.Context, v Actor, id SetID) error {
	return s.inTransaction(ctx, v, "put the empty set away", func(t *tx) error {
		set, err := t.lockStudentsSet(ctx, id)
		if err != nil {
			return err
		}
		if !set.Closed.IsZero() {
			return ErrClosed
		}
		if err := t.requireEmptySet(ctx, set); err != nil {
			return err
		}
		if err := t.takeBackStart(ctx, set); err != nil {
			return err
		}
		if err := t.RemoveDeletedBreaks(ctx, id.UUID); err != nil {
			return err
		}
		if err := t.DeleteTally(ctx, id.UUID); err != nil {
			return err
		}
		if err := t.DeleteSet(ctx, id.UUID); err != nil {
			return err
		}
		t.queueEvent(BreakSaved, set.Student, id)
		return nil
	})
}

func (t *tx) requireEmptySet(ctx context.Context, set Set) error {
	if len(set.Breaks) > 0 {
		return newRefusal(ErrConflict, "this set has breaks: close it instead")
	}
	deleted, err := t.ListDeletedBreaks(ctx, set.ID.UUID)
	if err != nil {
		return err
	}
	for _, row := range deleted {
		if row.DeleteReason != undoneAtOnce {
			return newRefusal(ErrConflict, "a break was taken out of this set with a reason: close it, and the reason stays")
		}
	}
	messages, err := t.ListMessages(ctx, set.ID.UUID)
	if err == nil && len(messages) > 0 {
		return newRefusal(ErrConflict, "there is a message about this set: close it, and the message stays")
	}
	return err
}
