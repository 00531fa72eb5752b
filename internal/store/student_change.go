package store

import (
	"context"
	"fmt"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/account"
	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// changeAsCoach does fn for a coach.
func (s *Store) changeAsCoach(ctx context.Context, v Actor, doing string, fn func(*tx) error) error {
	return s.inTransaction(ctx, v, doing, func(t *tx) error {
		if err := v.requireCoach(); err != nil {
			return err
		}
		return fn(t)
	})
}

// RenamePerson gives a person another name. Coaches only.
func (s *Store) RenamePerson(ctx context.Context, v Actor, id PersonID, name string) error {
	return s.changeAsCoach(ctx, v, "rename the person", func(t *tx) error {
		if says := drill.CheckName(name); says != "" {
			return fieldProblem("name", says)
		}
		return requireChangedRow(t.Queries.RenamePerson(ctx, query.RenamePersonParams{Name: name, ID: id.UUID}))
	})
}

// ReplaceCode gives a student another join code, forgets their PIN and signs them
// out everywhere: for a lost sheet or a forgotten PIN. Coaches only.
func (s *Store) ReplaceCode(ctx context.Context, v Actor, student PersonID) (code string, err error) {
	err = s.changeAsCoach(ctx, v, "make a new code", func(t *tx) error {
		if err := t.ForgetSecret(ctx, student.UUID); err != nil {
			return err
		}
		code, err = t.assignFreeCode(ctx, student)
		return err
	})
	return code, err
}

// assignFreeCode tries codes inside savepoints, since a taken one breaks a transaction.
func (t *tx) assignFreeCode(ctx context.Context, student PersonID) (string, error) {
	for range codeAttempts {
		code := account.NewCode()
		err := t.inSavepoint(ctx, func() error {
			return requireChangedRow(t.Queries.SetCode(ctx, query.SetCodeParams{Code: code, ID: student.UUID}))
		})
		if !violatesUnique(err, "person_code") {
			return code, err
		}
	}
	return "", errNoCode
}

// inSavepoint does fn in a savepoint, so that the transaction survives its error.
func (t *tx) inSavepoint(ctx context.Context, fn func() error) error {
	if _, err := t.conn.Exec(ctx, "savepoint attempt", pgx.QueryExecModeExec); err != nil {
		return err
	}
	err := fn()
	end := "release savepoint attempt"
	if err != nil {
		end = "rollback to savepoint attempt"
	}
	if _, endErr := t.conn.Exec(ctx, end, pgx.QueryExecModeExec); endErr != nil {
		return fmt.Errorf("%w (%w)", endErr, err)
	}
	return err
}

// ArchivePerson puts a person away: they cannot sign in and are in no listing,
// and what they recorded stays. Not the actor themself. Coaches only.
func (s *Store) ArchivePerson(ctx context.Context, v Actor, id PersonID) error {
	return s.changeAsCoach(ctx, v, "archive the person", func(t *tx) error {
		if id == v.Person {
			return newRefusal(ErrNotAllowed, "another coach has to do this for you")
		}
		if err := t.RevokeSessions(ctx, id.UUID); err != nil {
			return err
		}
		return requireChangedRow(t.Queries.ArchivePerson(ctx, id.UUID))
	})
}

// RestorePerson takes a person back from the archive. Coaches only.
func (s *Store) RestorePerson(ctx context.Context, v Actor, id PersonID) error {
	return s.changeAsCoach(ctx, v, "restore the person", func(t *tx) error {
		return requireChangedRow(t.Queries.RestorePerson(ctx, id.UUID))
	})
}
