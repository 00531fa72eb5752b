package store

import (
	"context"
	"time"
	"unicode/utf8"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// Assignment is a drill given to a class or to students.
type Assignment struct {
	ID    AssignmentID
	Drill DrillID
	// Class is zero when the assignment is for the students named in Students.
	Class    ClassID
	Students []PersonID
	// Due is the day, as midnight UTC of that date; the zero time is no day.
	Due     time.Time
	Note    string
	By      PersonID
	Created time.Time
	Ended   time.Time // zero while it is open
}

// ListedAssignment is an assignment in a coach's list.
type ListedAssignment struct {
	Assignment // without Students
	DrillName  string
	ClassName  string // "" when it is for single students
	// For counts the students it is for, Done those who closed a set of it.
	For, Done int
}

// Assign gives a drill to a class or to students: Drill, Class or Students,
// Due, Note and, so that a second click does nothing, ID are taken from a.
// [ErrConflict] when the drill or that id is not to be had any more. Coaches
// only.
func (s *Store) Assign(ctx context.Context, v Viewer, a Assignment) (AssignmentID, error) {
	a.ID = orNew(a.ID)
	err := s.change(ctx, v, "assign the drill", func(t *tx) error {
		if err := a.check(); err != nil {
			return err
		}
		archived, err := t.HoldDrill(ctx, a.Drill.UUID)
		if err != nil {
			return err
		}
		return t.assign(ctx, a, archived != nil)
	})
	return a.ID, err
}

func (a Assignment) check() error {
	var p drill.Problems
	if IsZero(a.Class) == (len(a.Students) == 0) {
		p.Add("students", "choose a class, or one student or more")
	}
	if utf8.RuneCountInString(a.Note) > drill.MaxNote {
		p.Add("note", "a note has at most 2000 characters")
	}
	return p.Err()
}

func (t *tx) assign(ctx context.Context, a Assignment, drillArchived bool) error {
	if there, err := t.GetAssignment(ctx, a.ID.UUID); err == nil {
		if there.DrillID != a.Drill.UUID || orNone[ClassID](there.ClassID) != a.Class {
			return refuse(ErrConflict, "this form was sent before, for something else: open it again")
		}
		return nil // a second click
	}
	if drillArchived {
		return refuse(ErrConflict, "this drill was changed or archived meanwhile: choose it again")
	}
	_, err := t.InsertAssignment(ctx, query.InsertAssignmentParams{
		ClubID: t.viewer.Club.UUID, ID: a.ID.UUID, DrillID: a.Drill.UUID, ClassID: orNull(a.Class),
		DueOn: orNil(a.Due), Note: a.Note, CreatedBy: t.viewer.Person.UUID,
	})
	if err != nil {
		return err
	}
	t.tell(Assigned, PersonID{}, SetID{})
	if len(a.Students) == 0 {
		return nil
	}
	return t.InsertAssignmentStudents(ctx, query.InsertAssignmentStudentsParams{
		ClubID: t.viewer.Club.UUID, AssignmentID: a.ID.UUID, StudentIds: uuids(a.Students),
	})
}

// ChangeAssignment gives an assignment another due day and note. Coaches only.
func (s *Store) ChangeAssignment(ctx context.Context, v Viewer, id AssignmentID, due time.Time, note string) error {
	return s.change(ctx, v, "change the assignment", func(t *tx) error {
		if utf8.RuneCountInString(note) > drill.MaxNote {
			return problem("note", "a note has at most 2000 characters")
		}
		return one(t.Queries.ChangeAssignment(ctx, query.ChangeAssignmentParams{DueOn: orNil(due), Note: note, ID: id.UUID}))
	})
}

// EndAssignment takes an assignment off everyone's page. Open sets of it can
// still be finished. Coaches only.
func (s *Store) EndAssignment(ctx context.Context, v Viewer, id AssignmentID) error {
	return s.change(ctx, v, "end the assignment", func(t *tx) error {
		return one(t.Queries.EndAssignment(ctx, id.UUID))
	})
}

// GetAssignment gives an assignment with its named students; a student sees
// themself alone among these.
func (s *Store) GetAssignment(ctx context.Context, v Viewer, id AssignmentID) (Assignment, error) {
	return read(ctx, s, v, "get the assignment", func(t *tx) (Assignment, error) { return t.assignment(ctx, id) })
}

func (t *tx) assignment(ctx context.Context, id AssignmentID) (Assignment, error) {
	row, err := t.GetAssignment(ctx, id.UUID)
	if err != nil {
		return Assignment{}, err
	}
	a := assignment(row)
	students, err := t.ListAssignmentStudents(ctx, id.UUID)
	for _, student := range students {
		a.Students = append(a.Students, PersonID{student})
	}
	return a, err
}

// ListAssignments gives the assignments by due day, those without one last; Live
// leaves ended ones out. Coaches only.
func (s *Store) ListAssignments(ctx context.Context, v Viewer, which Which) ([]ListedAssignment, error) {
	return read(ctx, s, v, "list the assignments", func(t *tx) ([]ListedAssignment, error) {
		if err := v.mustCoach(); err != nil {
			return nil, err
		}
		rows, err := t.Queries.ListAssignments(ctx, bool(which))
		return each(rows, listedAssignment), err
	})
}

func listedAssignment(r query.ListAssignmentsRow) ListedAssignment {
	return ListedAssignment{
		Assignment: assignment(r.Assignment), DrillName: r.DrillName, ClassName: r.ClassName,
		For: r.Students, Done: r.StudentsDone,
	}
}

func assignment(row query.Assignment) Assignment {
	return Assignment{
		ID: AssignmentID{row.ID}, Drill: DrillID{row.DrillID}, Class: orNone[ClassID](row.ClassID),
		Due: utc(row.DueOn), Note: row.Note, By: PersonID{row.CreatedBy},
		Created: row.CreatedAt.UTC(), Ended: utc(row.EndedAt),
	}
}
