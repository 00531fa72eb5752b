package store

import (
	"context"

	"breakwright/internal/store/internal/query"
)

// ListedAssignment is an assignment in a coach's list.
type ListedAssignment struct {
	Assignment // without Students
	// DrillName says the side too, where the assignment does.
	DrillName string
	ClassName string // "" when it is for single students
	// For counts the students it is for, Done those who closed a set of it.
	For, Done int
}

// AssignmentAsk says which assignments are wanted; the zero value is all that
// are open.
type AssignmentAsk struct {
	// Ended wants those that have ended, the latest first, instead of the open
	// ones, by due day, those without one last.
	Ended bool
	Class ClassID // zero for all classes and single students
	// Skip leaves out so many from the beginning, Most gives so many at most; 0
	// is no bound.
	Skip, Most int
}

// AssignmentPage is a part of a list of assignments.
type AssignmentPage struct {
	List []ListedAssignment
	// Total counts the whole list; 0 when the part is empty.
	Total int
}

// PageAssignments gives a part of the club's assignments: it takes as long for a
// club of many years as for a new one, as long as Most is set. Coaches only.
func (s *Store) PageAssignments(ctx context.Context, v Viewer, ask AssignmentAsk) (AssignmentPage, error) {
	return read(ctx, s, v, "list the assignments", func(t *tx) (AssignmentPage, error) {
		if err := v.mustCoach(); err != nil {
			return AssignmentPage{}, err
		}
		return t.pageAssignments(ctx, ask)
	})
}

func (t *tx) pageAssignments(ctx context.Context, ask AssignmentAsk) (page AssignmentPage, err error) {
	rows, err := t.Queries.ListAssignments(ctx, query.ListAssignmentsParams{
		Ended: &ask.Ended, ClassID: orNull(ask.Class), Skip: int32(max(ask.Skip, 0)), Most: orNil(max(ask.Most, 0)),
	})
	if len(rows) > 0 {
		page.Total = rows[0].Total
	}
	page.List = each(rows, listedAssignment)
	return page, err
}

// ListAssignments gives all assignments by due day, those without one last; Live
// leaves ended ones out. Coaches only.
func (s *Store) ListAssignments(ctx context.Context, v Viewer, which Which) ([]ListedAssignment, error) {
	return read(ctx, s, v, "list the assignments", func(t *tx) ([]ListedAssignment, error) {
		if err := v.mustCoach(); err != nil {
			return nil, err
		}
		var ask query.ListAssignmentsParams
		if which == Live {
			ask.Ended = new(bool)
		}
		rows, err := t.Queries.ListAssignments(ctx, ask)
		return each(rows, listedAssignment), err
	})
}

func listedAssignment(r query.ListAssignmentsRow) ListedAssignment {
	a := assignment(r.Assignment)
	return ListedAssignment{
		Assignment: a, DrillName: a.Name(r.DrillName), ClassName: r.ClassName, For: r.Students, Done: r.StudentsDone,
	}
}
