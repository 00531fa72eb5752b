package store

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"breakwright/internal/drill"
)

// PaperSet is a set that a coach types in for a student, from paper.
type PaperSet struct {
	ID         SetID // made by the page
	Student    PersonID
	Assignment AssignmentID
	Table      TableID
	// At is when the set was begun, as the sheet says.
	At time.Time
	// Setup is what the sheet told the student to do; the zero setup is what is
	// to be done now (Task.On).
	Setup drill.Setup
	// Breaks are numbered from 1 without gaps.
	Breaks []drill.Break
}

// SavePaperSet records a whole set for a student and closes it, as if the student
// had, except that each break says which coach typed it. The same again returns
// the set as it is; another one under its id is an [ErrConflict]. A break that
// cannot have happened is refused with [drill.Problems], the field saying which
// and what: "3.cue". [ErrNotFound] when the assignment is not for the student,
// [ErrConflict] when it has ended or the table was put away. All of it is kept,
// or nothing. Coaches only.
func (s *Store) SavePaperSet(ctx context.Context, v Actor, typed PaperSet, judge Judge) (Set, error) {
	typed.ID = idOrNew(typed.ID)
	var set Set
	err := s.changeAsCoach(ctx, v, "type the set in", func(t *tx) error {
		student, err := t.loadStudent(ctx, typed.Student)
		if err != nil {
			return err
		}
		if err := t.LockUntilCommit(ctx, student.ID.String()); err != nil {
			return err
		}
		there, err := t.loadSet(ctx, typed.ID)
		switch {
		case err == nil && !typed.matchesSet(there):
			return newRefusal(ErrConflict, "this form was sent before, with other breaks: open it again")
		case err == nil:
			set = there
			return nil
		case !errors.Is(err, pgx.ErrNoRows):
			return err
		}
		if err := t.writePaperSet(ctx, typed, judge); err != nil {
			return err
		}
		set, err = t.loadSet(ctx, typed.ID)
		return err
	})
	return set, err
}

// matchesSet reports whether the set that is there came from the very same form.
func (typed PaperSet) matchesSet(there Set) bool {
	was := there.DrillSet()
	is := was
	is.Breaks = typed.Breaks
	return there.Student == typed.Student && there.Assignment == typed.Assignment && there.Table.ID == typed.Table && sameSet(was, is)
}

func (t *tx) writePaperSet(ctx context.Context, typed PaperSet, judge Judge) error {
	coach := t.actor
	start := NewSet{ID: typed.ID, Assignment: typed.Assignment, Table: typed.Table, At: typed.At, Setup: typed.Setup}
	err := t.asStudent(ctx, typed.Student, func() error { return t.startSet(ctx, start) })
	if err != nil {
		return err
	}
	set, err := t.loadSet(ctx, typed.ID)
	if err != nil {
		return err
	}
	if err := typed.validateBreaks(set); err != nil {
		return err
	}
	for _, b := range typed.Breaks {
		row, err := t.LockSet(ctx, typed.ID.UUID) // again for each: the counts go with it
		if err != nil {
			return err
		}
		locked, err := lockedSetFromRow(row)
		if err != nil {
			return err
		}
		id := BreakID{uuid.NewSHA1(typed.ID.UUID, fmt.Appendf(nil, "break %d", b.Number))}
		if err := t.saveBreak(ctx, locked, nil, Break{ID: id, Revision: 1, Break: b, EditedBy: coach.Person}); err != nil {
			return err
		}
	}
	return t.closeSet(ctx, typed.ID, judge)
}

// validateBreaks says what in the breaks cannot be.
func (typed PaperSet) validateBreaks(set Set) error {
	var p drill.Problems
	if len(typed.Breaks) == 0 || len(typed.Breaks) > set.Planned {
		p.Add("breaks", fmt.Sprintf("a set of this drill has from 1 to %d breaks", set.Planned))
	}
	for i, b := range typed.Breaks {
		if b.Number != i+1 {
			p.Add("breaks", "breaks are numbered 1, 2, 3 … without gaps or repeats")
			break
		}
		var wrong drill.Problems
		if errors.As(b.Check(set.Setup, set.Table.Kind), &wrong) {
			for _, one := range wrong {
				p.Add(fmt.Sprintf("%d.%s", b.Number, one.Field), one.Message)
			}
		}
	}
	return p.Err()
}

// asStudent does fn in the name of a student of the coach's club, and then is
// the coach again.
func (t *tx) asStudent(ctx context.Context, student PersonID, fn func() error) error {
	coach := t.actor
	t.actor = Actor{Club: coach.Club, Person: student, Role: Student}
	defer func() { t.actor = coach }()
	if err := t.switchActor(ctx, t.actor); err != nil {
		return err
	}
	if err := fn(); err != nil {
		return err
	}
	return t.switchActor(ctx, coach)
}
