package store

import (
	"context"
	"errors"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// MaxNote is how many letters a coach's note on a student may have.
const MaxNote = 4000

// GetStudentNote returns the actor's own note on a student, "" for none. No
// student and no other coach is ever given it. Coaches only.
func (s *Store) GetStudentNote(ctx context.Context, v Actor, student PersonID) (string, error) {
	return readInTransaction(ctx, s, v, "get the note", func(t *tx) (string, error) {
		if err := v.requireCoach(); err != nil {
			return "", err
		}
		body, err := t.Queries.GetStudentNote(ctx, query.GetStudentNoteParams{StudentID: student.UUID, CoachID: v.Person.UUID})
		if errors.Is(classifyError(err), ErrNotFound) {
			return "", nil
		}
		return body, err
	})
}

// SaveStudentNote writes the actor's own note on a student; an empty one
// removes it. Coaches only.
func (s *Store) SaveStudentNote(ctx context.Context, v Actor, student PersonID, body string) error {
	return s.changeAsCoach(ctx, v, "save the note", func(t *tx) error {
		if _, err := t.loadStudent(ctx, student); err != nil {
			return err
		}
		body = strings.TrimSpace(strings.ReplaceAll(body, "\r\n", "\n"))
		if says := drill.CheckNote(body, MaxNote); says != "" {
			return fieldProblem("note", says)
		}
		if body == "" {
			return t.RemoveStudentNote(ctx, query.RemoveStudentNoteParams{StudentID: student.UUID, CoachID: v.Person.UUID})
		}
		return t.Queries.SaveStudentNote(ctx, query.SaveStudentNoteParams{
			ClubID: v.Club.UUID, StudentID: student.UUID, CoachID: v.Person.UUID, Body: body,
		})
	})
}
