package store

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// BreakCorrection is what a coach puts right in a recorded break.
type BreakCorrection struct {
	Set   SetID
	Break BreakID
	// Revision is the one that the coach looked at.
	Revision int
	// As is how the break really was; nil strikes it out. Its number and time are
	// those recorded.
	As *drill.Break
	// Reason is needed: the student reads it.
	Reason string
}

// CheckReason returns [drill.Problems] where the reason is missing or too long.
func (c BreakCorrection) CheckReason() error {
	if strings.TrimSpace(c.Reason) == "" {
		return fieldProblem("reason", "say why: the student reads it")
	}
	return checkReason(c.Reason)
}

// CorrectBreak puts a break right, or strikes it, in an open set or a closed one.
// What it was stays in the history ([Store.ListStruckBreaks]) with the reason. What
// the student's latest closed set says is said anew, unless a coach has decided on
// it; what others say stays as it was said, and their counts are right at once.
// Coaches only. [ErrStale] when the break was changed or taken out meanwhile,
// [drill.Problems] when it cannot have been so, is recorded so already, or the reason
// is missing.
func (s *Store) CorrectBreak(ctx context.Context, v Actor, c BreakCorrection, judge Judge) error {
	return s.changeAsCoach(ctx, v, "correct the break", func(t *tx) error {
		if err := c.CheckReason(); err != nil {
			return err
		}
		set, err := t.lockStudentsSet(ctx, c.Set)
		if err != nil {
			return err
		}
		return t.correctSet(ctx, set, judge, func() error { return t.correctBreak(ctx, c) })
	})
}

// PutBreakBack puts a break back that was taken out of its set, just as it was, in an open
// set or a closed one; that it was out stays in the history, with the reason. What the set
// says is said anew as by [Store.CorrectBreak]. One that is back already stays as it is.
// Coaches only. [ErrConflict] when another break has its number.
func (s *Store) PutBreakBack(ctx context.Context, v Actor, id SetID, which BreakID, judge Judge) error {
	return s.changeAsCoach(ctx, v, "put the break back", func(t *tx) error {
		set, err := t.lockStudentsSet(ctx, id)
		if err != nil || slices.ContainsFunc(set.Breaks, func(b Break) bool { return b.ID == which }) {
			return err
		}
		return t.correctSet(ctx, set, judge, func() error { return t.putBreakBack(ctx, id, which) })
	})
}

// correctSet changes the breaks of a set, and says anew what it says.
func (t *tx) correctSet(ctx context.Context, set Set, judge Judge, correct func() error) error {
	anew, err := t.reopenForCorrection(ctx, set)
	if err != nil {
		return err
	}
	if err := correct(); err != nil || set.Closed.IsZero() {
		return err
	}
	return t.settleCorrected(ctx, set, anew, judge)
}

// reopenForCorrection opens the student's latest closed set, so that what it says
// can be said anew; false when what is said has to stay.
func (t *tx) reopenForCorrection(ctx context.Context, set Set) (bool, error) {
	if set.Closed.IsZero() {
		return false, nil
	}
	later, err := t.HasLaterSet(ctx, query.HasLaterSetParams{StudentID: set.Student.UUID, StartedAt: set.Started})
	if err != nil || later {
		return false, err
	}
	err = t.reopenClosed(ctx, set)
	if errors.Is(err, ErrConflict) { // a coach has decided on it; nothing was changed
		return false, nil
	}
	return err == nil, err
}

// settleCorrected closes a set again that was closed before, or puts it right where
// it stands.
func (t *tx) settleCorrected(ctx context.Context, set Set, anew bool, judge Judge) error {
	now, err := t.loadSet(ctx, set.ID)
	if err != nil {
		return err
	}
	if anew {
		return t.closeLockedSet(ctx, now, &set.Closed, judge)
	}
	return t.regroupStintsAround(ctx, now)
}

// lockForCorrection is lockForBreak for a break that was recorded in the set; that the set
// is closed a coach's correction passes over.
func (t *tx) lockForCorrection(ctx context.Context, set SetID, id BreakID) (lockedSet, *keptBreak, error) {
	locked, there, err := t.lockForBreak(ctx, set, id)
	if err == nil && (there == nil || there.set != set || there.isVersion) {
		err = ErrNotFound
	}
	locked.ClosedAt = nil
	return locked, there, err
}

func (t *tx) putBreakBack(ctx context.Context, set SetID, id BreakID) error {
	locked, there, err := t.lockForCorrection(ctx, set, id)
	if err != nil {
		return err
	}
	back := there.Break
	back.Revision++
	if err := back.checkInSet(locked); err != nil {
		return err
	}
	return t.saveBreak(ctx, locked, there, back)
}

func (t *tx) correctBreak(ctx context.Context, c BreakCorrection) error {
	locked, there, err := t.lockForCorrection(ctx, c.Set, c.Break)
	switch {
	case err != nil:
		return err
	case there.isDeleted || there.Revision != c.Revision:
		return newRefusal(ErrStale, "break %d was changed or taken out meanwhile", there.Number)
	}
	if c.As == nil {
		return t.strikeBreak(ctx, locked, there, there.Revision+1, c.Reason)
	}
	b := Break{ID: c.Break, Revision: there.Revision + 1, Break: *c.As, changedFor: c.Reason}
	b.Number, b.At = there.Number, there.At
	if err := b.checkInSet(locked); err != nil {
		return err
	}
	if same, err := there.isSame(b.Break); err != nil || same {
		return cmp.Or(err, fieldProblem("break", fmt.Sprintf("break %d is recorded just so already: nothing was changed", there.Number)))
	}
	return t.saveBreak(ctx, locked, there, b)
}
