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
type Person struct {
	ID   PersonID
	Role Role
	Name string
	// Side is the side a student breaks from; "" when it is not known yet.
	Side table.Side
	// Login is a coach's, Code a student's; the other is empty.
	Login, Code string
	Joined      time.Time
	// HasSecret says that they have chosen a PIN or a passphrase: a student has
	// joined.
	HasSecret bool
	Archived  bool
}

// GetPerson gives a person: the viewer, or for a coach anyone of the club.
func (s *Store) GetPerson(ctx context.Context, v Viewer, id PersonID) (Person, error) {
	return read(ctx, s, v, "get the person", func(t *tx) (Person, error) { return t.person(ctx, id) })
}

func (t *tx) person(ctx context.Context, id PersonID) (Person, error) {
	row, err := t.GetPerson(ctx, id.UUID)
	return person(row), err
}

// student gives a person who must be one.
func (t *tx) student(ctx context.Context, id PersonID) (Person, error) {
	p, err := t.person(ctx, id)
	if err == nil && p.Role != Student {
		return Person{}, ErrNotFound
	}
	return p, err
}

// ListStudents gives the club's students by name; archived ones only on
// request. For a student it is themself.
func (s *Store) ListStudents(ctx context.Context, v Viewer, which Which) ([]Person, error) {
	return read(ctx, s, v, "list the students", func(t *tx) ([]Person, error) {
		rows, err := t.Queries.ListStudents(ctx, bool(which))
		return each(rows, func(r query.ListStudentsRow) Person { return person(query.GetPersonRow(r)) }), err
	})
}

// ListCoaches gives the club's coaches by name. Coaches only.
func (s *Store) ListCoaches(ctx context.Context, v Viewer) ([]Person, error) {
	return read(ctx, s, v, "list the coaches", func(t *tx) ([]Person, error) {
		if err := v.mustCoach(); err != nil {
			return nil, err
		}
		rows, err := t.Queries.ListCoaches(ctx)
		return each(rows, func(r query.ListCoachesRow) Person { return person(query.GetPersonRow(r)) }), err
	})
}

// Which says whether a listing has what was put away, too.
type Which bool

// The two kinds of listing.
const (
	Live Which = false // what is in use
	All  Which = true  // archived or ended too
)

// AddCoach adds another coach to the club: [ErrConflict] when the login is
// taken. Coaches only.
func (s *Store) AddCoach(ctx context.Context, v Viewer, coach NewCoach) (PersonID, error) {
	id := orNew(coach.ID)
	err := s.in(ctx, v, "add the coach", func(t *tx) error {
		if err := v.mustCoach(); err != nil {
			return err
		}
		if err := coach.check(); err != nil {
			return err
		}
		return t.addCoach(ctx, id, coach)
	})
	return id, err
}

func (t *tx) addCoach(ctx context.Context, id PersonID, coach NewCoach) error {
	rows, err := t.InsertCoach(ctx, query.InsertCoachParams{
		ClubID: t.viewer.Club.UUID, ID: id.UUID, Name: coach.Name, Login: coach.Login, SecretHash: coach.SecretHash,
	})
	if err != nil || rows == 1 {
		return err
	}
	if there, err := t.person(ctx, id); err == nil && there.Login == coach.Login {
		return nil // a second click
	}
	return refuse(ErrConflict, "the login %s is taken", coach.Login)
}

func checkLogin(login string) string {
	switch {
	case strings.TrimSpace(login) == "":
		return "choose a name to sign in with"
	case utf8.RuneCountInString(login) > MaxLogin || drill.CheckName(login) != "" && len(login) <= drill.MaxName:
		return "a login is one line of at most 200 letters"
	case login != strings.TrimSpace(login):
		return "no spaces before or after it"
	}
	return ""
}

func person(row query.GetPersonRow) Person {
	return Person{
		ID: PersonID{row.ID}, Role: Role(row.Role), Name: row.Name, Side: table.Side(orZero(row.Side)),
		Login: orZero(row.Login), Code: orZero(row.Code), Joined: row.JoinedAt.UTC(),
		HasSecret: row.HasSecret, Archived: row.ArchivedAt != nil,
	}
}

// orZero is how an optional column comes back.
func orZero[T any](v *T) T {
	if v == nil {
		var zero T
		return zero
	}
	return *v
}

// orNil is how an optional value is stored: the zero value is null.
func orNil[T comparable](v T) *T {
	var zero T
	if v == zero {
		return nil
	}
	return &v
}

// utc is how an optional time comes back; the zero time is none.
func utc(at *time.Time) time.Time { return orZero(at).UTC() }

// each maps rows to nouns.
func each[Row, Noun any](rows []Row, noun func(Row) Noun) []Noun {
	nouns := make([]Noun, len(rows))
	for i, row := range rows {
		nouns[i] = noun(row)
	}
	return nouns
}
