package store

import (
	"context"
	"strings"

	"breakwright/internal/store/internal/query"
)

// SignIn is what a sign-in needs to know of a person. SecretHash is empty for a
// student who has chosen no PIN: the code alone lets them in.
type SignIn struct {
	Viewer
	Name       string
	SecretHash string
}

// FindCoach looks a coach up by login, large or small letters alike.
// [ErrNotFound] also for one who was archived.
func (s *Store) FindCoach(ctx context.Context, login string) (SignIn, error) {
	var found query.FindCoachRow
	err := s.door(ctx, "find the coach", func(q *query.Queries) (err error) {
		found, err = q.FindCoach(ctx, strings.TrimSpace(login))
		return err
	})
	if err != nil {
		return SignIn{}, err
	}
	return signIn(found), nil
}

// FindStudent looks a student up by join code, as account.ReadCode gives it.
func (s *Store) FindStudent(ctx context.Context, code string) (SignIn, error) {
	var found query.FindStudentRow
	err := s.door(ctx, "find the student", func(q *query.Queries) (err error) {
		found, err = q.FindStudent(ctx, code)
		return err
	})
	if err != nil {
		return SignIn{}, err
	}
	return signIn(query.FindCoachRow(found)), nil
}

func signIn(row query.FindCoachRow) SignIn {
	return SignIn{
		Viewer: Viewer{Club: ClubID{row.ClubID}, Person: PersonID{row.PersonID}, Role: Role(row.Role)},
		Name:   row.Name, SecretHash: row.SecretHash,
	}
}

// SetSecret keeps the argon2id hash of the viewer's own passphrase or PIN.
// Sessions go on; end them with [Store.RevokeAll].
func (s *Store) SetSecret(ctx context.Context, v Viewer, hash string) error {
	return s.in(ctx, v, "set the secret", func(t *tx) error {
		done, err := t.Queries.SetSecret(ctx, hash)
		if err == nil && !done {
			return ErrNotFound
		}
		return err
	})
}
