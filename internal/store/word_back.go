package store

import (
	"context"
	"time"

	"breakwright/internal/store/internal/query"
)

// WordBack is a student's quick word on what a set was told.
type WordBack string

// The words; the empty one is "nothing was said".
const (
	FeltWrong WordBack = "felt wrong"
	Hurts     WordBack = "hurts"
	Done      WordBack = "done"
)

// HurtStudent is a student who said after a set that it hurts.
type HurtStudent struct {
	Student PersonID
	Name    string
	Set     SetID
	SetName string
	At      time.Time
	// BegunSince says that they have begun a set since.
	BegunSince bool
}

// SayWordBack keeps the student's word on their closed set, in the place of an
// earlier one; the empty word takes it back. Repeating it is harmless. The
// student's own alone: [ErrNotAllowed] for a coach, [ErrConflict] while the set is
// open.
func (s *Store) SayWordBack(ctx context.Context, v Actor, set SetID, word WordBack) error {
	return s.inTransaction(ctx, v, "say a word back", func(t *tx) error {
		if v.IsCoach() {
			return ErrNotAllowed
		}
		locked, err := t.LockSet(ctx, set.UUID)
		if err != nil {
			return err
		}
		switch word {
		case FeltWrong, Hurts, Done:
			if locked.BreakSet.ClosedAt == nil {
				return newRefusal(ErrConflict, "close the set first")
			}
			err = t.SaveWordBack(ctx, query.SaveWordBackParams{
				ClubID: v.Club.UUID, SetID: set.UUID, StudentID: locked.BreakSet.StudentID, Word: string(word),
			})
		case "":
			err = t.DeleteWordBack(ctx, set.UUID)
		default:
			err = fieldProblem("word", "choose one of the buttons")
		}
		t.queueEvent(MessagePosted, PersonID{locked.BreakSet.StudentID}, set)
		return err
	})
}

// loadWordBack adds the student's word on the set.
func (t *tx) loadWordBack(ctx context.Context, set *Set) error {
	row, err := t.GetWordBack(ctx, set.ID.UUID)
	if isNoRow(err) {
		return nil
	}
	set.WordBack = WordBack(row.Word)
	return err
}

// findStandingHurt returns the set of which a student's "it hurts" still stands, zero
// for none.
func (t *tx) findStandingHurt(ctx context.Context, student PersonID) (SetID, error) {
	set, err := t.GetStandingHurt(ctx, student.UUID)
	if isNoRow(err) {
		return SetID{}, nil
	}
	return SetID{set}, err
}

func (t *tx) loadDeskHurts(ctx context.Context, d *Desk, now time.Time) error {
	rows, err := t.ListHurts(ctx, daysAgo(now, deskHurtDays))
	d.Hurts = mapRows(rows, func(r query.ListHurtsRow) HurtStudent {
		return HurtStudent{Student: PersonID{r.StudentID}, Name: r.StudentName, Set: SetID{r.SetID}, SetName: r.SetName, At: r.SaidAt.UTC(), BegunSince: r.BegunSince}
	})
	return err
}
