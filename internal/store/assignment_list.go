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

// AssignmentFilter says which assignments are wanted; the zero value is all that
// are open.
type AssignmentFilter struct {
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

// PageAssignments returns a part of the club's assignments: it takes as long for a
// club of many years as for a new one, as long as Most is set. Coaches only.
func (s *Store) PageAssignments(ctx context.Context, v Actor, filter AssignmentFilter) (AssignmentPage, error) {
	return readInTransaction(ctx, s, v, "list the assignments", func(t *tx) (AssignmentPage, error) {
		if err := v.requireCoach(); err != nil {
			return AssignmentPage{}, err
		}
		return t.loadAssignmentPage(ctx, filter)
	})
}

func (t *tx) loadAssignmentPage(ctx context.Context, filter AssignmentFilter) (page AssignmentPage, err error) {
	rows, err := t.Queries.ListAssignments(ctx, query.ListAssignmentsParams{
		Ended: &filter.Ended, ClassID: uuidOrNull(filter.Class), Skip: int32(max(filter.Skip, 0)), Most: pointerOrNil(max(filter.Most, 0)),
	})
	if len(rows) > 0 {
		page.Total = rows[0].Total
	}
	page.List = mapRows(rows, listedAssignmentFromRow)
	return page, err
}

// ListAssignments returns all assignments by due day, those without one last; Live
// leaves ended ones out. Coaches only.
func (s *Store) ListAssignments(ctx context.Context, v Actor, which ArchiveFilter) ([]ListedAssignment, error) {
	return readInTransaction(ctx, s, v, "list the assignments", func(t *tx) ([]ListedAssignment, error) {
		if err := v.requireCoach(); err != nil {
			return nil, err
		}
		var filter query.ListAssignmentsParams
		if which == ActiveOnly {
			filter.Ended = new(bool)
		}
		rows, err := t.Queries.ListAssignments(ctx, filter)
		return mapRows(rows, listedAssignmentFromRow), err
	})
}

func listedAssignmentFromRow(r query.ListAssignmentsRow) ListedAssignment {
	a := assignmentFromRow(r.Assignment)
	return ListedAssignment{
		Assignment: a, DrillName: a.Name(r.DrillName), ClassName: r.ClassName, For: r.Students, Done: r.StudentsDone,
	}
}
