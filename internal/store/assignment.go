package store

import (
	"context"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// Assignment is a drill given to a class or to students.
//
// A coach gives, changes, ends and resumes it ([ErrNotAllowed] for a student); a
// student reads those that are for them: others are [ErrNotFound]. Its sets are kept
// when it ends, and an open one can still be finished.
type Assignment struct {
	ID    AssignmentID
	Drill DrillID
	// Class is zero when the assignment is for the students named in Students.
	Class    ClassID
	Students []PersonID
	// Side is the one it is to be broken from; "" is each student's own.
	Side table.Side
	// Due is the day, as midnight UTC of that date; the zero time is no day.
	Due     time.Time
	Note    string
	By      PersonID
	Created time.Time
	Ended   time.Time // zero while it is open
}

// Name is that of the drill, with the side where the assignment says one.
func (a Assignment) Name(drill string) string {
	if a.Side == "" {
		return drill
	}
	return drill + ", from the " + string(a.Side)
}

// AssignDrill gives a drill to a class or to students: Drill, Class or Students,
// Side, Due, Note and, so that a second click does nothing, ID are taken from a.
// [ErrConflict] when the drill or that id is not to be had any more. Coaches
// only.
func (s *Store) AssignDrill(ctx context.Context, v Actor, a Assignment) (AssignmentID, error) {
	a.ID = idOrNew(a.ID)
	err := s.changeAsCoach(ctx, v, "assign the drill", func(t *tx) error {
		if err := a.validate(); err != nil {
			return err
		}
		archived, err := t.LockDrillShared(ctx, a.Drill.UUID)
		if err != nil {
			return err
		}
		return t.writeAssignment(ctx, a, archived != nil)
	})
	return a.ID, err
}

// AssignBothSides is Assign for either side: two assignments, made together or
// not at all. That from the left has the id of a, that from the right one made of
// it, so that a second click does nothing here either. Coaches only.
func (s *Store) AssignBothSides(ctx context.Context, v Actor, a Assignment) (left, right AssignmentID, err error) {
	a.ID = idOrNew(a.ID)
	other := a
	a.Side, other.Side = table.Left, table.Right
	other.ID = AssignmentID{uuid.NewSHA1(a.ID.UUID, []byte(table.Right))}
	err = s.changeAsCoach(ctx, v, "assign the drill from both sides", func(t *tx) error {
		if err := a.validate(); err != nil {
			return err
		}
		archived, err := t.LockDrillShared(ctx, a.Drill.UUID)
		if err != nil {
			return err
		}
		if err := t.writeAssignment(ctx, a, archived != nil); err != nil {
			return err
		}
		return t.writeAssignment(ctx, other, archived != nil)
	})
	return a.ID, other.ID, err
}

func (a Assignment) validate() error {
	var p drill.Problems
	if IsZero(a.Class) == (len(a.Students) == 0) {
		p.Add("students", "choose a class, or one student or more")
	}
	if says := drill.CheckNote(a.Note, drill.MaxNote); says != "" {
		p.Add("note", says)
	}
	return p.Err()
}

func (t *tx) writeAssignment(ctx context.Context, a Assignment, drillArchived bool) error {
	if row, err := t.GetAssignment(ctx, a.ID.UUID); err == nil {
		if there := assignmentFromRow(row); there.Drill != a.Drill || there.Class != a.Class || there.Side != a.Side {
			return newRefusal(ErrConflict, "this form was sent before, for something else: open it again")
		}
		return nil // a second click
	}
	if drillArchived {
		return newRefusal(ErrConflict, "this drill was changed or archived meanwhile: choose it again")
	}
	_, err := t.InsertAssignment(ctx, query.InsertAssignmentParams{
		ClubID: t.actor.Club.UUID, ID: a.ID.UUID, DrillID: a.Drill.UUID, ClassID: uuidOrNull(a.Class),
		Side: pointerOrNil(string(a.Side)), DueOn: pointerOrNil(a.Due), Note: a.Note, CreatedBy: t.actor.Person.UUID,
	})
	if err != nil {
		return err
	}
	if err := t.requireRoom(ctx, RoomForAssignments, uuid.Nil); err != nil {
		return err
	}
	t.queueEvent(DrillAssigned, PersonID{}, SetID{})
	if len(a.Students) == 0 {
		return nil
	}
	return t.InsertAssignmentStudents(ctx, query.InsertAssignmentStudentsParams{
		ClubID: t.actor.Club.UUID, AssignmentID: a.ID.UUID, StudentIds: plainUUIDs(a.Students),
	})
}

// ChangeAssignment gives an assignment another due day and note. Coaches only.
func (s *Store) ChangeAssignment(ctx context.Context, v Actor, id AssignmentID, due time.Time, note string) error {
	return s.changeAsCoach(ctx, v, "change the assignment", func(t *tx) error {
		if says := drill.CheckNote(note, drill.MaxNote); says != "" {
			return fieldProblem("note", says)
		}
		return requireChangedRow(t.Queries.ChangeAssignment(ctx, query.ChangeAssignmentParams{DueOn: pointerOrNil(due), Note: note, ID: id.UUID}))
	})
}

// EndAssignment takes assignments off everyone's page, all of them or none. Open sets of
// them can still be finished. Coaches only.
func (s *Store) EndAssignment(ctx context.Context, v Actor, ids ...AssignmentID) error {
	return s.changeAsCoach(ctx, v, "end the assignment", func(t *tx) error {
		for _, id := range ids {
			if err := requireChangedRow(t.Queries.EndAssignment(ctx, id.UUID)); err != nil {
				return err
			}
		}
		return nil
	})
}

// ResumeAssignment takes an ended assignment up again, as it was. Repeating it is
// harmless. Coaches only.
func (s *Store) ResumeAssignment(ctx context.Context, v Actor, id AssignmentID) error {
	return s.changeAsCoach(ctx, v, "take the assignment up again", func(t *tx) error {
		return requireChangedRow(t.Queries.ResumeAssignment(ctx, id.UUID))
	})
}

// GetAssignment returns an assignment with its named students; a student sees
// themself alone among these.
func (s *Store) GetAssignment(ctx context.Context, v Actor, id AssignmentID) (Assignment, error) {
	return readInTransaction(ctx, s, v, "get the assignment", func(t *tx) (Assignment, error) { return t.loadAssignment(ctx, id) })
}

func (t *tx) loadAssignment(ctx context.Context, id AssignmentID) (Assignment, error) {
	row, err := t.GetAssignment(ctx, id.UUID)
	if err != nil {
		return Assignment{}, err
	}
	a := assignmentFromRow(row)
	students, err := t.ListAssignmentStudents(ctx, id.UUID)
	for _, student := range students {
		a.Students = append(a.Students, PersonID{student})
	}
	return a, err
}

func assignmentFromRow(row query.Assignment) Assignment {
	return Assignment{
		ID: AssignmentID{row.ID}, Drill: DrillID{row.DrillID}, Class: idOrZero[ClassID](row.ClassID), Side: table.Side(valueOrZero(row.Side)),
		Due: utcOrZero(row.DueOn), Note: row.Note, By: PersonID{row.CreatedBy},
		Created: row.CreatedAt.UTC(), Ended: utcOrZero(row.EndedAt),
	}
}
