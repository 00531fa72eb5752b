package store

import (
	"context"
	"errors"

	"breakwright/internal/store/internal/query"
)

// SecondStep is a coach's second step of signing in, see account.TOTPCode.
type SecondStep struct {
	Secret []byte
	// Confirmed says that it is asked for; before, it was only begun.
	Confirmed bool
	// RecoveryCodes is how many are left.
	RecoveryCodes int
}

// BeginSecondStep keeps a secret that is not asked for yet: [ErrConflict] when
// there is a second step in use. Coaches only.
func (s *Store) BeginSecondStep(ctx context.Context, v Actor, secret []byte) error {
	return s.changeAsCoach(ctx, v, "begin the second step", func(t *tx) error {
		begun, err := t.Queries.BeginSecondStep(ctx, secret)
		if err == nil && !begun {
			return newRefusal(ErrConflict, "there is a second step already")
		}
		return err
	})
}

// GetSecondStep returns the actor's own; the zero SecondStep when there is none.
func (s *Store) GetSecondStep(ctx context.Context, v Actor) (SecondStep, error) {
	return readInTransaction(ctx, s, v, "get the second step", func(t *tx) (SecondStep, error) {
		row, err := t.Queries.GetOwnSecondStep(ctx)
		if errors.Is(classifyError(err), ErrNotFound) {
			return SecondStep{}, nil
		}
		return SecondStep{Secret: row.Secret, Confirmed: row.Confirmed, RecoveryCodes: row.RecoveryCodes}, err
	})
}

// ConfirmSecondStep puts the begun one in use. step is the time step of the
// code that was typed, codeHashes those of the recovery codes. [ErrConflict]
// when none was begun. Coaches only.
func (s *Store) ConfirmSecondStep(ctx context.Context, v Actor, step int64, codeHashes [][]byte) error {
	return s.changeAsCoach(ctx, v, "confirm the second step", func(t *tx) error {
		done, err := t.Queries.ConfirmSecondStep(ctx, query.ConfirmSecondStepParams{Step: step, Codes: codeHashes})
		if err == nil && !done {
			return newRefusal(ErrConflict, "no second step was begun")
		}
		return err
	})
}

// ReplaceRecoveryCodes ends the actor's recovery codes and puts others in their place.
// step is the time step of the code that was typed: [ErrConflict] when it, or a later
// one, was used, or no second step is in use. Coaches only.
func (s *Store) ReplaceRecoveryCodes(ctx context.Context, v Actor, step int64, codeHashes [][]byte) error {
	return s.changeAsCoach(ctx, v, "replace the recovery codes", func(t *tx) error {
		used, err := t.Queries.UseSecondStep(ctx, query.UseSecondStepParams{Club: v.Club.UUID, Person: v.Person.UUID, Step: step})
		if err != nil {
			return err
		}
		if !used {
			return newRefusal(ErrConflict, "this code was used already")
		}
		own, err := t.Queries.GetOwnSecondStep(ctx)
		if err != nil {
			return err
		}
		// The codes come and go with their second step, so the same one begins anew.
		if err := t.Queries.DropSecondStep(ctx); err != nil {
			return err
		}
		if _, err := t.Queries.BeginSecondStep(ctx, own.Secret); err != nil {
			return err
		}
		_, err = t.Queries.ConfirmSecondStep(ctx, query.ConfirmSecondStepParams{Step: step, Codes: codeHashes})
		return err
	})
}

// DropSecondStep takes the actor's own away, with its recovery codes.
func (s *Store) DropSecondStep(ctx context.Context, v Actor) error {
	return s.inTransaction(ctx, v, "drop the second step", func(t *tx) error { return t.Queries.DropSecondStep(ctx) })
}

// FindSecondStep returns the secret of whoever gave the right passphrase; nil for
// who has no second step.
func (s *Store) FindSecondStep(ctx context.Context, who Actor) (secret []byte, err error) {
	err = s.withoutActor(ctx, "find the second step", func(q *query.Queries) (err error) {
		secret, err = q.FindSecondStep(ctx, query.FindSecondStepParams{Club: who.Club.UUID, Person: who.Person.UUID})
		return err
	})
	return secret, err
}

// UseSecondStep uses up a time step: false when it, or a later one, was used.
func (s *Store) UseSecondStep(ctx context.Context, who Actor, step int64) (used bool, err error) {
	err = s.withoutActor(ctx, "use a code", func(q *query.Queries) (err error) {
		used, err = q.UseSecondStep(ctx, query.UseSecondStepParams{Club: who.Club.UUID, Person: who.Person.UUID, Step: step})
		return err
	})
	return used, err
}

// UseRecoveryCode uses up a recovery code: false when there is no such one.
func (s *Store) UseRecoveryCode(ctx context.Context, who Actor, codeHash []byte) (used bool, err error) {
	err = s.withoutActor(ctx, "use a recovery code", func(q *query.Queries) (err error) {
		used, err = q.UseRecoveryCode(ctx, query.UseRecoveryCodeParams{Club: who.Club.UUID, Person: who.Person.UUID, Code: codeHash})
		return err
	})
	return used, err
}
