package store

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"

	"github.com/google/uuid"

	"breakwright/internal/account"
	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// NewStudent is a student to be added.
type NewStudent struct {
	Name string
	Side table.Side // "" when it is not known yet
}

// AddStudents adds students to the club and to a class (the zero class for
// none) and gives each a join code of their own, in the order given. form is
// the id of the page's form: the same form sent twice adds everyone once and
// returns the same people; the zero form never repeats. All or none are added.
// Coaches only.
func (s *Store) AddStudents(ctx context.Context, v Actor, form uuid.UUID, class ClassID, students []NewStudent) ([]Person, error) {
	return readInTransaction(ctx, s, v, "add the students", func(t *tx) ([]Person, error) {
		if err := v.requireCoach(); err != nil {
			return nil, err
		}
		if err := checkStudents(students); err != nil {
			return nil, err
		}
		added := make([]Person, 0, len(students))
		for i, n := range students {
			p, err := t.addStudent(ctx, formID(form, i), n, class)
			if err != nil {
				return nil, err
			}
			added = append(added, p)
		}
		return added, t.requireRoom(ctx, RoomForStudents, uuid.Nil)
	})
}

// UndoAddStudents archives the first count students that a form added. Repeating it is
// harmless; so is a form that added nobody. Coaches only.
func (s *Store) UndoAddStudents(ctx context.Context, v Actor, form uuid.UUID, count int) (RosterChange, error) {
	added := make([]PersonID, min(count, RoomForStudents.Most))
	for i := range added {
		added[i] = formID(form, i)
	}
	id := RosterChangeID{uuid.NewSHA1(form, []byte("undo"))}
	return s.ChangeStudents(ctx, v, RosterChange{ID: id, Kind: ArchiveMany}, added)
}

func checkStudents(students []NewStudent) error {
	var p drill.Problems
	for i, n := range students {
		if says := drill.CheckName(n.Name); says != "" {
			p.Add("names", fmt.Sprintf("line %d: %s", i+1, says))
		}
		if n.Side != "" && n.Side != table.Left && n.Side != table.Right {
			p.Add("names", fmt.Sprintf("line %d: the break side is left or right", i+1))
		}
	}
	return p.Err()
}

// formID is the id of the i-th person of a form.
func formID(form uuid.UUID, i int) PersonID {
	if form == uuid.Nil {
		return NewID[PersonID]()
	}
	return PersonID{uuid.NewSHA1(form, binary.BigEndian.AppendUint32(nil, uint32(i)))}
}

func (t *tx) addStudent(ctx context.Context, id PersonID, n NewStudent, class ClassID) (Person, error) {
	if err := t.insertStudent(ctx, id, n); err != nil {
		return Person{}, err
	}
	if !IsZero(class) {
		err := t.Queries.AddMember(ctx, query.AddMemberParams{ClubID: t.actor.Club.UUID, ClassID: class.UUID, StudentID: id.UUID})
		if err != nil {
			return Person{}, err
		}
	}
	return t.loadPerson(ctx, id)
}

// codeAttempts is how many codes are tried: that even two in a row are taken is
// next to impossible.
const codeAttempts = 10

var errNoCode = errors.New("no free join code found")

// insertStudent tries codes until one is free. A student who is there already,
// from a form sent twice, stays as they are.
func (t *tx) insertStudent(ctx context.Context, id PersonID, n NewStudent) error {
	for range codeAttempts {
		code := account.NewCode()
		rows, err := t.InsertStudent(ctx, query.InsertStudentParams{
			ClubID: t.actor.Club.UUID, ID: id.UUID, Name: n.Name, Side: pointerOrNil(string(n.Side)), Code: &code,
		})
		if err != nil || rows == 1 {
			return err
		}
		switch _, err := t.loadStudent(ctx, id); {
		case err == nil:
			return nil
		case !errors.Is(classifyError(err), ErrNotFound):
			return err
		}
	}
	return errNoCode
}
