package store

import (
	"context"
	"strings"
	"time"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// Message is a question or an answer about a set, or what a coach wrote to a student who
// had no set yet.
//
// The set's student asks and any coach of the club answers; to others it is
// [ErrNotFound]. It is never changed, and kept as long as its set and its student, unless
// its coach takes it back before its student has read it.
type Message struct {
	ID      MessageID
	Set     SetID    // zero for none
	Student PersonID // whose set it is, or who it is to
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
		body, err := checkMessageBody(body)
		if err != nil {
			return err
		}
		row, err := t.GetSet(ctx, set.UUID)
		if err != nil {
			return err
		}
		added, err := t.addMessage(ctx, Message{ID: idOrNew(id), Set: set, Student: PersonID{row.BreakSet.StudentID}, Body: body})
		if err != nil || !added {
			return err
		}
		return t.markRead(ctx, set)
	})
}

// PostToStudents adds a message to the latest set of each of the students, all or none, and
// one beside no set for who has none yet; who has left or is of another club is left out. It
// returns the number of those who have it. Questions that wait on those sets keep waiting:
// this answers none of them. The same id again is harmless. Coaches only.
func (s *Store) PostToStudents(ctx context.Context, v Actor, id MessageID, students []PersonID, body string) (sent int, err error) {
	err = s.changeAsCoach(ctx, v, "message the students", func(t *tx) error {
		body, err := checkMessageBody(body)
		if err != nil {
			return err
		}
		sets, err := t.ListLatestSets(ctx, plainUUIDs(students))
		if err != nil {
			return err
		}
		sent, id = len(sets), idOrNew(id)
		for _, latest := range sets {
			if _, err := t.addMessage(ctx, Message{
				ID: messageToStudent(id, latest.StudentID), Set: idOrZero[SetID](latest.SetID), Student: PersonID{latest.StudentID}, Body: body,
			}); err != nil {
				return err
			}
		}
		return nil
	})
	return sent, err
}

// TakeBackMessage takes away what the coach wrote, from each student who has not read it:
// the message of that id, and those of an id given to [Store.PostToStudents]. Questions
// that it answered wait again. It returns how many are gone, and how many stay because they
// were read. Repeating it is harmless. Coaches only.
func (s *Store) TakeBackMessage(ctx context.Context, v Actor, id MessageID) (taken, kept int, err error) {
	err = s.changeAsCoach(ctx, v, "take the message back", func(t *tx) error {
		students, err := t.Queries.ListRoster(ctx)
		if err != nil {
			return err
		}
		ids := []uuid.UUID{id.UUID}
		for _, student := range students {
			ids = append(ids, messageToStudent(id, student.ID).UUID)
		}
		gone, err := t.TakeBackMessages(ctx, query.TakeBackMessagesParams{Ids: ids, AuthorID: v.Person.UUID})
		if err != nil {
			return err
		}
		for _, m := range gone {
			set := idOrZero[SetID](m.SetID)
			if err := t.ReopenQuestions(ctx, query.ReopenQuestionsParams{SetID: set.UUID, AnsweredAt: &m.CreatedAt}); err != nil {
				return err
			}
			t.queueEvent(MessagePosted, PersonID{m.StudentID}, set)
		}
		taken = len(gone)
		kept, err = t.CountMessages(ctx, ids)
		return err
	})
	return taken, kept, err
}

// messageToStudent is the id of one student's copy of a message sent to several.
func messageToStudent(id MessageID, student uuid.UUID) MessageID {
	return MessageID{uuid.NewSHA1(id.UUID, student[:])}
}

// checkMessageBody returns a message's text without the blanks around it.
func checkMessageBody(body string) (string, error) {
	body = strings.TrimSpace(body)
	if body == "" {
		return "", fieldProblem("body", "write from 1 to 2000 characters")
	}
	if says := drill.CheckNote(body, drill.MaxNote); says != "" {
		return "", fieldProblem("body", says)
	}
	return body, nil
}

// addMessage adds what the actor wrote; added is false where it was there before.
func (t *tx) addMessage(ctx context.Context, m Message) (added bool, err error) {
	rows, err := t.InsertMessage(ctx, query.InsertMessageParams{
		ClubID: t.actor.Club.UUID, ID: m.ID.UUID, SetID: pointerOrNil(m.Set.UUID), StudentID: m.Student.UUID,
		AuthorID: t.actor.Person.UUID, Body: m.Body, FromCoach: t.actor.IsCoach(),
	})
	if err != nil || rows == 0 {
		return false, err
	}
	room, within := RoomForMessages, m.Set.UUID
	if IsZero(m.Set) {
		room, within = RoomWithoutSet, m.Student.UUID
	}
	if err := t.requireRoom(ctx, room, within); err != nil {
		return false, err
	}
	t.queueEvent(MessagePosted, m.Student, m.Set)
	return true, nil
}

// MarkRead notes that the actor has read all messages of a set.
func (s *Store) MarkRead(ctx context.Context, v Actor, set SetID) error {
	return s.inTransaction(ctx, v, "mark the messages read", func(t *tx) error { return t.markRead(ctx, set) })
}

// ReadMessage notes that a student has read a message that stands beside no set, and returns
// it.
func (s *Store) ReadMessage(ctx context.Context, v Actor, id MessageID) (m Message, err error) {
	err = s.inTransaction(ctx, v, "mark the message read", func(t *tx) error {
		if v.IsCoach() {
			return newRefusal(ErrNotAllowed, "only a student reads what was written to them")
		}
		row, err := t.MarkReadWithoutSet(ctx, id.UUID)
		m = messageFromRow(row)
		return err
	})
	return m, err
}

func (t *tx) markRead(ctx context.Context, set SetID) error {
	if t.actor.IsCoach() {
		return t.MarkReadByCoach(ctx, set.UUID)
	}
	return t.MarkReadByStudent(ctx, set.UUID)
}

// ListUnreadQuestions returns the messages no coach has read, oldest first, without
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
		ID: MessageID{r.ID}, Set: idOrZero[SetID](r.SetID), Student: PersonID{r.StudentID}, Author: PersonID{r.AuthorID},
		FromCoach: r.AuthorID != r.StudentID, Body: r.Body, At: r.CreatedAt.UTC(),
		ReadByCoach: utcOrZero(r.ReadByCoachAt), ReadByStudent: utcOrZero(r.ReadByStudentAt),
	}
}
