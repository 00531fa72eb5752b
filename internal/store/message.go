package store

import (
	"context"
	"strings"
	"time"
	"unicode/utf8"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// Message is a question or an answer about a set.
//
// The set's student asks and any coach of the club answers; to others it is
// [ErrNotFound]. It is never changed, and kept as long as its set.
type Message struct {
	ID      MessageID
	Set     SetID
	Student PersonID // whose set it is
	Author  PersonID
	// FromCoach says that a coach wrote it: a student cannot look the author up.
	FromCoach bool
	Body      string
	At        time.Time
	// ReadByCoach and ReadByStudent are the zero time until then.
	ReadByCoach, ReadByStudent time.Time
}

// StudentQuestion is a message that waits for a coach.
type StudentQuestion struct {
	Message
	StudentName, SetName string
}

// PostMessage adds a message to a set: a student's question, or a coach's answer, which
// also marks the questions read. The same id again is harmless. id may be zero
// for a caller that never repeats.
func (s *Store) PostMessage(ctx context.Context, v Actor, id MessageID, set SetID, body string) error {
	return s.inTransaction(ctx, v, "add the message", func(t *tx) error {
		body = strings.TrimSpace(body)
		if n := utf8.RuneCountInString(body); n == 0 || n > drill.MaxNote || !utf8.ValidString(body) {
			return fieldProblem("body", "write from 1 to 2000 characters")
		}
		row, err := t.GetSet(ctx, set.UUID)
		if err != nil {
			return err
		}
		added, err := t.InsertMessage(ctx, query.InsertMessageParams{
			ClubID: v.Club.UUID, ID: idOrNew(id).UUID, SetID: set.UUID, StudentID: row.BreakSet.StudentID,
			AuthorID: v.Person.UUID, Body: body, FromCoach: v.IsCoach(),
		})
		if err != nil || added == 0 {
			return err
		}
		if err := t.requireRoom(ctx, RoomForMessages, set); err != nil {
			return err
		}
		t.queueEvent(MessagePosted, PersonID{row.BreakSet.StudentID}, set)
		return t.markRead(ctx, set)
	})
}

// MarkRead notes that the viewer has read all messages of a set.
func (s *Store) MarkRead(ctx context.Context, v Actor, set SetID) error {
	return s.inTransaction(ctx, v, "mark the messages read", func(t *tx) error { return t.markRead(ctx, set) })
}

func (t *tx) markRead(ctx context.Context, set SetID) error {
	if t.actor.IsCoach() {
		return t.MarkReadByCoach(ctx, set.UUID)
	}
	return t.MarkReadByStudent(ctx, set.UUID)
}

// ListUnreadQuestions gives the messages no coach has read, oldest first, without
// those of archived students. Coaches only.
func (s *Store) ListUnreadQuestions(ctx context.Context, v Actor) ([]StudentQuestion, error) {
	return readInTransaction(ctx, s, v, "list the questions", func(t *tx) ([]StudentQuestion, error) {
		if err := v.requireCoach(); err != nil {
			return nil, err
		}
		rows, err := t.ListUnreadQuestions(ctx)
		return mapRows(rows, questionFromRow), err
	})
}

func questionFromRow(r query.ListUnreadQuestionsRow) StudentQuestion {
	return StudentQuestion{Message: messageFromRow(r.Message), StudentName: r.StudentName, SetName: r.SetName}
}

func messageFromRow(r query.Message) Message {
	return Message{
		ID: MessageID{r.ID}, Set: SetID{r.SetID}, Student: PersonID{r.StudentID}, Author: PersonID{r.AuthorID},
		FromCoach: r.AuthorID != r.StudentID, Body: r.Body, At: r.CreatedAt.UTC(),
		ReadByCoach: utcOrZero(r.ReadByCoachAt), ReadByStudent: utcOrZero(r.ReadByStudentAt),
	}
}
