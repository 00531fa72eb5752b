package store

import (
	"context"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// RosterChangeID names a change made to students.
type RosterChangeID struct{ uuid.UUID }

// RosterChangeKind is what was done to students.
type RosterChangeKind string

// The kinds of change to students; each can be undone.
const (
	SetSides        RosterChangeKind = "side"
	AddToClass      RosterChangeKind = "class in"
	RemoveFromClass RosterChangeKind = "class out"
	ArchiveMany     RosterChangeKind = "archive"
	RestoreMany     RosterChangeKind = "restore"
)

// RosterChange is one change made to one student, or to many at once.
//
// A coach makes it and takes it back ([ErrNotAllowed] for a student), each once however
// often that is sent; another club's is [ErrNotFound]. It is kept, undone or not, until all it changed are erased.
type RosterChange struct {
	ID    RosterChangeID // of the form: the same form sent twice changes once
	Kind  RosterChangeKind
	Side  table.Side // of SetSides; "" for not known
	Class ClassID    // of AddToClass and RemoveFromClass
	// The rest is filled when a change is read.
	ClassName string
	Made      time.Time
	Undone    bool
	// Students counts those it really changed: who had that side already is not
	// among them.
	Students int
}

// ChangeStudents makes a change to all of the students at once, or to none.
// Students of other clubs are left alone, and so is who is as wanted already.
// Repeating it is harmless. Coaches only.
func (s *Store) ChangeStudents(ctx context.Context, v Actor, change RosterChange, students []PersonID) (RosterChange, error) {
	change.ID = idOrNew(change.ID)
	err := s.changeAsCoach(ctx, v, "change the students", func(t *tx) error {
		if change.Side != "" && change.Side != table.Left && change.Side != table.Right {
			return fieldProblem("side", "the break side is left or right")
		}
		if !IsZero(change.Class) {
			if _, err := t.Queries.GetClass(ctx, change.Class.UUID); err != nil {
				return err
			}
		}
		made, err := t.InsertRosterChange(ctx, query.InsertRosterChangeParams{
			ClubID: v.Club.UUID, ID: change.ID.UUID, Kind: string(change.Kind), Side: pointerOrNil(string(change.Side)),
			ClassID: uuidOrNull(change.Class), MadeBy: v.Person.UUID,
		})
		if err != nil || made == 0 {
			return err
		}
		if err := t.requireRoom(ctx, RoomForChanges, uuid.Nil); err != nil {
			return err
		}
		return t.applyRosterChange(ctx, change, students)
	})
	if err != nil {
		return RosterChange{}, err
	}
	return s.GetRosterChange(ctx, v, change.ID)
}

func (t *tx) applyRosterChange(ctx context.Context, change RosterChange, students []PersonID) (err error) {
	id, ids := change.ID.UUID, plainUUIDs(students)
	switch change.Kind {
	case SetSides:
		_, err = t.ChangeSides(ctx, query.ChangeSidesParams{ChangeID: id, Students: ids, Side: pointerOrNil(string(change.Side))})
	case AddToClass:
		_, err = t.AddMembers(ctx, query.AddMembersParams{ChangeID: id, ClassID: change.Class.UUID, Students: ids})
	case RemoveFromClass:
		_, err = t.RemoveMembers(ctx, query.RemoveMembersParams{ChangeID: id, ClassID: change.Class.UUID, Students: ids})
	case ArchiveMany:
		if _, err = t.ArchiveStudents(ctx, query.ArchiveStudentsParams{ChangeID: id, Students: ids}); err == nil {
			err = t.revokeChanged(ctx, change.ID)
		}
	case RestoreMany:
		_, err = t.RestoreStudents(ctx, query.RestoreStudentsParams{ChangeID: id, Students: ids})
	default:
		err = newRefusal(ErrNotFound, "there is no change %q", change.Kind)
	}
	return err
}

// revokeChanged signs out whom a change put away.
func (t *tx) revokeChanged(ctx context.Context, change RosterChangeID) error {
	ids, err := t.ListChangedStudents(ctx, change.UUID)
	for _, id := range ids {
		if err := t.RevokeSessions(ctx, id); err != nil {
			return err
		}
	}
	return err
}

// GetRosterChange returns a change and how many students it really changed.
// Coaches only.
func (s *Store) GetRosterChange(ctx context.Context, v Actor, id RosterChangeID) (RosterChange, error) {
	return readInTransaction(ctx, s, v, "get the change", func(t *tx) (RosterChange, error) {
		return t.loadRosterChange(ctx, id)
	})
}

func (t *tx) loadRosterChange(ctx context.Context, id RosterChangeID) (RosterChange, error) {
	r, err := t.Queries.GetRosterChange(ctx, id.UUID)
	if err != nil {
		return RosterChange{}, err
	}
	return rosterChangeFromRow(r.RosterChange, r.ClassName, r.Students), nil
}

func rosterChangeFromRow(r query.RosterChange, class string, students int) RosterChange {
	return RosterChange{
		ID: RosterChangeID{r.ID}, Kind: RosterChangeKind(r.Kind), Side: table.Side(valueOrZero(r.Side)),
		Class: idOrZero[ClassID](r.ClassID), ClassName: class, Made: r.MadeAt.UTC(), Undone: r.UndoneAt != nil, Students: students,
	}
}

// UndoRosterChange takes a change back for those it changed. A side that was
// set again since stays; who was signed out by an archive signs in again.
// Repeating it is harmless. Coaches only.
func (s *Store) UndoRosterChange(ctx context.Context, v Actor, id RosterChangeID) (RosterChange, error) {
	var change RosterChange
	err := s.changeAsCoach(ctx, v, "undo the change", func(t *tx) (err error) {
		if change, err = t.loadRosterChange(ctx, id); err != nil {
			return err
		}
		marked, err := t.MarkRosterChangeUndone(ctx, id.UUID)
		if err != nil || marked == 0 {
			return err
		}
		change.Undone = true
		return t.revertRosterChange(ctx, change)
	})
	return change, err
}

func (t *tx) revertRosterChange(ctx context.Context, change RosterChange) error {
	id := change.ID.UUID
	switch change.Kind {
	case SetSides:
		return t.UndoSides(ctx, id)
	case AddToClass:
		return t.UndoAddMembers(ctx, id)
	case RemoveFromClass:
		return t.UndoRemoveMembers(ctx, id)
	case ArchiveMany:
		return t.UndoArchiveStudents(ctx, id)
	}
	if err := t.UndoRestoreStudents(ctx, id); err != nil {
		return err
	}
	return t.revokeChanged(ctx, change.ID)
}
