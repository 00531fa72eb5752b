package store

import (
	"context"
	"errors"
	"strings"
	"time"

	"breakwright/internal/store/internal/query"
)

// Credentials is what a sign-in needs to know of a person. SecretHash is empty for a
// student who has chosen no PIN: the code alone lets them in.
type Credentials struct {
	Actor
	Name       string
	SecretHash string
	// CodeMade is when a student's join code was made; it lets in once, for a while.
	CodeMade time.Time
	// SecondStep says that the passphrase alone does not let a coach in.
	SecondStep bool
}

// FindCoach looks a coach up by login, large or small letters alike.
// [ErrNotFound] also for one who was archived.
func (s *Store) FindCoach(ctx context.Context, login string) (Credentials, error) {
	var found query.FindCoachRow
	err := s.withoutActor(ctx, "find the coach", func(q *query.Queries) (err error) {
		found, err = q.FindCoach(ctx, strings.TrimSpace(login))
		return err
	})
	if err != nil {
		return Credentials{}, err
	}
	return credentialsFromRow(found), nil
}

// FindStudent looks a student up by join code, as account.ParseCode returns it.
func (s *Store) FindStudent(ctx context.Context, code string) (Credentials, error) {
	var found query.FindStudentRow
	err := s.withoutActor(ctx, "find the student", func(q *query.Queries) (err error) {
		found, err = q.FindStudent(ctx, code)
		return err
	})
	if err != nil {
		return Credentials{}, err
	}
	return credentialsFromRow(query.FindCoachRow(found)), nil
}

func credentialsFromRow(row query.FindCoachRow) Credentials {
	return Credentials{
		Actor: Actor{Club: ClubID{row.ClubID}, Person: PersonID{row.PersonID}, Role: Role(row.Role)},
		Name:  row.Name, SecretHash: row.SecretHash, CodeMade: row.CodeMadeAt.UTC(), SecondStep: row.SecondStep,
	}
}

// ChangeSecret keeps the argon2id hash of the actor's new passphrase or PIN, and ends all
// of their sessions but one, as [Store.EndOtherSessions] does: who knew the old one is out
// as soon as it is changed.
func (s *Store) ChangeSecret(ctx context.Context, v Actor, hash string, kept SessionID, deviceHash []byte) error {
	return s.inTransaction(ctx, v, "change the secret", func(t *tx) error {
		if err := t.setSecret(ctx, hash); err != nil {
			return err
		}
		return t.endOtherSessions(ctx, kept, deviceHash)
	})
}

// ResetSecret lets a coach in who is locked out: it keeps the argon2id hash of a new
// passphrase, ends all of their sessions, drops their second step and opens their lock.
func (s *Store) ResetSecret(ctx context.Context, v Actor, hash string) error {
	return s.inTransaction(ctx, v, "reset the secret", func(t *tx) error {
		if err := t.setSecret(ctx, hash); err != nil {
			return err
		}
		return errors.Join(t.RevokeSessions(ctx, v.Person.UUID), t.Queries.DropSecondStep(ctx), t.Queries.FreePerson(ctx, v.Person.UUID))
	})
}

func (t *tx) setSecret(ctx context.Context, hash string) error {
	done, err := t.SetSecret(ctx, hash)
	if err == nil && !done {
		return ErrNotFound
	}
	return err
}

// GetOwnSecret returns the hash of the actor's own secret, "" for none yet.
func (s *Store) GetOwnSecret(ctx context.Context, v Actor) (string, error) {
	return readInTransaction(ctx, s, v, "get the secret", func(t *tx) (string, error) { return t.Queries.GetOwnSecret(ctx) })
}
