package store

import (
	"context"
	"strings"
	"time"
	"unicode/utf8"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// Person is a coach or a student of the club.
//
// A coach reads and changes everybody, a student reads themself: others are
// [ErrNotFound]. Who is archived cannot sign in and is in no list, and all they
// recorded is kept, until a coach erases them.
type Person struct {
	ID   PersonID
	Role Role
	Name string
	// Side is the side a student breaks from; "" when it is not known yet.
	Side table.Side
	// Login is a coach's, Code a student's; the other is empty.
	Login, Code string
	Joined      time.Time
	// CodeMade is when a student's join code was made.
	CodeMade time.Time
	// HasSecret says that they have chosen a PIN or a passphrase: a student has
	// joined.
	HasSecret bool
	Archived  bool
}

// GetPerson returns a person: the actor, or for a coach anyone of the club.
func (s *Store) GetPerson(ctx context.Context, v Actor, id PersonID) (Person, error) {
	return readInTransaction(ctx, s, v, "get the person", func(t *tx) (Person, error) { return t.loadPerson(ctx, id) })
}

func (t *tx) loadPerson(ctx context.Context, id PersonID) (Person, error) {
	row, err := t.GetPerson(ctx, id.UUID)
	return personFromRow(row), err
}

// loadStudent returns a person who must be one.
func (t *tx) loadStudent(ctx context.Context, id PersonID) (Person, error) {
	p, err := t.loadPerson(ctx, id)
	if err == nil && p.Role != Student {
		return Person{}, ErrNotFound
	}
	return p, err
}

// ListStudents returns the club's students by name; archived ones only on
// request. For a student it is themself.
func (s *Store) ListStudents(ctx context.Context, v Actor, which ArchiveFilter) ([]Person, error) {
	return readInTransaction(ctx, s, v, "list the students", func(t *tx) ([]Person, error) {
		rows, err := t.Queries.ListStudents(ctx, bool(which))
		return mapRows(rows, func(r query.ListStudentsRow) Person { return personFromRow(query.GetPersonRow(r)) }), err
	})
}

// ListCoaches returns the club's coaches by name. Coaches only.
func (s *Store) ListCoaches(ctx context.Context, v Actor) ([]Person, error) {
	return readInTransaction(ctx, s, v, "list the coaches", func(t *tx) ([]Person, error) {
		if err := v.requireCoach(); err != nil {
			return nil, err
		}
		rows, err := t.Queries.ListCoaches(ctx)
		return mapRows(rows, func(r query.ListCoachesRow) Person { return personFromRow(query.GetPersonRow(r)) }), err
	})
}

// ArchiveFilter is whether a listing has what was put away, too.
type ArchiveFilter bool

// The two kinds of listing.
const (
	ActiveOnly   ArchiveFilter = false // what is in use
	WithArchived ArchiveFilter = true  // archived or ended too
)

// AddCoach adds another coach to the club: [ErrConflict] when the login is
// taken. Coaches only.
func (s *Store) AddCoach(ctx context.Context, v Actor, coach NewCoach) (PersonID, error) {
	id := idOrNew(coach.ID)
	err := s.inTransaction(ctx, v, "add the coach", func(t *tx) error {
		if err := v.requireCoach(); err != nil {
			return err
		}
		if err := coach.validate(); err != nil {
			return err
		}
		return t.addCoach(ctx, id, coach)
	})
	return id, err
}

func (t *tx) addCoach(ctx context.Context, id PersonID, coach NewCoach) error {
	rows, err := t.InsertCoach(ctx, query.InsertCoachParams{
		ClubID: t.actor.Club.UUID, ID: id.UUID, Name: coach.Name, Login: coach.Login, SecretHash: coach.SecretHash,
	})
	if err != nil || rows == 1 {
		return err
	}
	if there, err := t.loadPerson(ctx, id); err == nil && there.Login == coach.Login {
		return nil // a second click
	}
	return newRefusal(ErrConflict, "the login %s is taken", coach.Login)
}

func checkLogin(login string) string {
	switch {
	case strings.TrimSpace(login) == "":
		return "choose a name to sign in with"
	case utf8.RuneCountInString(login) > MaxLogin || !drill.IsLine(login):
		return "a login is one line of at most 200 letters"
	case login != strings.TrimSpace(login):
		return "no spaces before or after it"
	}
	return ""
}

func personFromRow(row query.GetPersonRow) Person {
	return Person{
		ID: PersonID{row.ID}, Role: Role(row.Role), Name: row.Name, Side: table.Side(valueOrZero(row.Side)),
		Login: valueOrZero(row.Login), Code: valueOrZero(row.Code), Joined: row.JoinedAt.UTC(),
		CodeMade: row.CodeMadeAt.UTC(), HasSecret: row.HasSecret, Archived: row.ArchivedAt != nil,
	}
}
