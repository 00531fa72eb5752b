package store

import (
	"context"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/store/internal/query"
)

// Actions are what coaches did since a moment beside deciding on changes, each part the
// newest first, and nothing that was taken back or can be taken back no more.
type Actions struct {
	Noted   []NotedLine
	Answers []UnreadAnswer
	Cards   []IssuedCard
	Roster  []DatedRosterChange
	Added   []AddedStudents
	// Assignments were made, or ended, since the moment.
	Assignments []DatedAssignment
	Classes     []ArchivedClass
}

// NotedLine is a line of the desk that a coach marked as looked at.
type NotedLine struct {
	DismissedLine
	StudentName, CoachName string
	At                     time.Time
}

// UnreadAnswer is a message of the coach's own that its student has not read.
type UnreadAnswer struct {
	Message
	StudentName string
}

// IssuedCard is a break card with whom it is for and who issued it.
type IssuedCard struct {
	ID                                 CardID
	Student                            PersonID
	Set                                SetID
	StudentName, CoachName, TableLabel string
	At                                 time.Time
}

// DatedRosterChange is a change of students with those whom it really changed.
type DatedRosterChange struct {
	RosterChange
	CoachName string
	People    []NamedStudent // by name
}

// AddedStudents are students who were added with one form.
type AddedStudents struct {
	At     time.Time
	People []NamedStudent // by name
}

// NamedStudent is a student and their name.
type NamedStudent struct {
	ID   PersonID
	Name string
}

// DatedAssignment is an assignment with the names of what it is about.
type DatedAssignment struct {
	Assignment // without Students
	// DrillName says the side too, where the assignment does.
	DrillName string
	ClassName string // "" when it is for single students
	For       int    // of the single students
}

// ArchivedClass is a class and when it was archived.
type ArchivedClass struct {
	ID   ClassID
	Name string
	At   time.Time
}

// maxActions keeps each part of a page that lists actions short.
const maxActions = 60

// ListActionsSince returns what coaches did since a moment and can take back; of messages
// the actor's own. Coaches only.
func (s *Store) ListActionsSince(ctx context.Context, v Actor, since time.Time) (Actions, error) {
	return readInTransaction(ctx, s, v, "list what was done", func(t *tx) (a Actions, err error) {
		if err := v.requireCoach(); err != nil {
			return a, err
		}
		for _, part := range []func(context.Context, *Actions, time.Time) error{
			t.loadNoted, t.loadUnreadAnswers, t.loadIssuedCards, t.loadRosterChanges, t.loadAddedStudents, t.loadDatedAssignments, t.loadArchivedClasses,
		} {
			if err := part(ctx, &a, since); err != nil {
				return a, err
			}
		}
		return a, nil
	})
}

func (t *tx) loadNoted(ctx context.Context, a *Actions, since time.Time) error {
	rows, err := t.ListNotedSince(ctx, query.ListNotedSinceParams{Since: since, Most: maxActions})
	a.Noted = mapRows(rows, func(r query.ListNotedSinceRow) NotedLine {
		return NotedLine{
			DismissedLine: DismissedLine{PersonID{r.StudentID}, DismissReason(r.Reason), r.AboutID.String()},
			StudentName:   r.StudentName, CoachName: r.CoachName, At: r.SeenAt.UTC(),
		}
	})
	return err
}

func (t *tx) loadUnreadAnswers(ctx context.Context, a *Actions, since time.Time) error {
	rows, err := t.ListUnreadAnswersSince(ctx, query.ListUnreadAnswersSinceParams{AuthorID: t.actor.Person.UUID, Since: since, Most: maxActions})
	a.Answers = mapRows(rows, func(r query.ListUnreadAnswersSinceRow) UnreadAnswer {
		return UnreadAnswer{messageFromRow(r.Message), r.StudentName}
	})
	return err
}

func (t *tx) loadIssuedCards(ctx context.Context, a *Actions, since time.Time) error {
	rows, err := t.ListCardsSince(ctx, query.ListCardsSinceParams{Since: since, Most: maxActions})
	a.Cards = mapRows(rows, func(r query.ListCardsSinceRow) IssuedCard {
		return IssuedCard{
			ID: CardID{r.ID}, Student: PersonID{r.StudentID}, Set: SetID{r.SetID}, StudentName: r.StudentName, CoachName: r.CoachName,
			TableLabel: tableFromRow(r.PoolTable).Label(), At: r.IssuedAt.UTC(),
		}
	})
	return err
}

func (t *tx) loadRosterChanges(ctx context.Context, a *Actions, since time.Time) error {
	rows, err := t.ListRosterChangesSince(ctx, query.ListRosterChangesSinceParams{Since: since, Most: maxActions})
	a.Roster = mapRows(rows, func(r query.ListRosterChangesSinceRow) DatedRosterChange {
		return DatedRosterChange{
			rosterChangeFromRow(r.RosterChange, r.ClassName, len(r.StudentIds)), r.CoachName, nameStudents(r.StudentIds, r.StudentNames),
		}
	})
	return err
}

func (t *tx) loadAddedStudents(ctx context.Context, a *Actions, since time.Time) error {
	rows, err := t.ListStudentsAddedSince(ctx, query.ListStudentsAddedSinceParams{Since: since, Most: maxActions})
	a.Added = mapRows(rows, func(r query.ListStudentsAddedSinceRow) AddedStudents {
		return AddedStudents{r.JoinedAt.UTC(), nameStudents(r.StudentIds, r.StudentNames)}
	})
	return err
}

func nameStudents(ids []uuid.UUID, names []string) []NamedStudent {
	people := make([]NamedStudent, len(ids))
	for i, id := range ids {
		people[i] = NamedStudent{PersonID{id}, names[i]}
	}
	return people
}

func (t *tx) loadDatedAssignments(ctx context.Context, a *Actions, since time.Time) error {
	rows, err := t.ListAssignmentsTouchedSince(ctx, query.ListAssignmentsTouchedSinceParams{Since: since, Most: maxActions})
	a.Assignments = mapRows(rows, func(r query.ListAssignmentsTouchedSinceRow) DatedAssignment {
		one := assignmentFromRow(r.Assignment)
		return DatedAssignment{one, one.Name(r.DrillName), r.ClassName, r.Students}
	})
	return err
}

func (t *tx) loadArchivedClasses(ctx context.Context, a *Actions, since time.Time) error {
	rows, err := t.ListClassesArchivedSince(ctx, query.ListClassesArchivedSinceParams{Since: since, Most: maxActions})
	a.Classes = mapRows(rows, func(r query.ListClassesArchivedSinceRow) ArchivedClass {
		return ArchivedClass{ClassID{r.ID}, r.Name, r.ArchivedAt.UTC()}
	})
	return err
}
