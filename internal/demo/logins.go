package demo

import (
	"context"
	"errors"
	"fmt"

	"breakwright/internal/account"
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// Logins are what a visitor of the demo signs in with.
type Logins struct {
	Club     string
	Coach    Login
	Students []Login // one who breaks from the left, one from the right
}

// Login is one person's. Who is a coach's login or a student's code, as it is
// printed; Secret the passphrase or PIN.
type Login struct {
	Name, SignInName, Secret string
	Side                     table.Side // "" for a coach
	// Changed says that somebody chose another secret since, or put the person
	// away: the one here does not let in any more.
	Changed bool
}

func findLogins(ctx context.Context, s *store.Store) (l Logins, err error) {
	club, err := s.GetClub(ctx, demoCoach)
	if err != nil {
		return l, err
	}
	l.Club = club.Name
	secrets, err := account.NewHasher(account.DefaultCost(), 1)
	if err != nil {
		return l, err
	}
	l.Coach = Login{Name: coachName, SignInName: coachLogin, Secret: passphrase}
	known, err := s.FindCoach(ctx, coachLogin)
	if l.Coach.Changed, err = isSecretChanged(ctx, secrets, known, err, passphrase); err != nil {
		return l, err
	}
	students, err := enrolStudents(ctx, s, store.ClassID{})
	if err != nil {
		return l, fmt.Errorf("find the class: %w", err)
	}
	for _, place := range demoStudents {
		p := students[place]
		login := Login{Name: p.Name, Side: p.Side, SignInName: account.FormatCode(p.Code), Secret: listParts()[place].pin}
		known, err := s.FindStudent(ctx, p.Code)
		if login.Changed, err = isSecretChanged(ctx, secrets, known, err, login.Secret); err != nil {
			return l, err
		}
		l.Students = append(l.Students, login)
	}
	return l, nil
}

// isSecretChanged reports whether a secret does not let in who was looked up.
func isSecretChanged(ctx context.Context, secrets *account.Hasher, known store.Credentials, err error, secret string) (bool, error) {
	if errors.Is(err, store.ErrNotFound) {
		return true, nil
	}
	if err != nil {
		return false, err
	}
	same, err := secrets.Matches(ctx, secret, known.SecretHash)
	return !same, err
}
