package store

import (
	"context"
	"fmt"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/account"
	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
	"breakwright/internal/table"
)

// change does fn for a coach.
func (s *Store) change(ctx context.Context, v Viewer, doing string, fn func(*tx) error) error {
	return s.in(ctx, v, doing, func(t *tx) error {
		if err := v.mustCoach(); err != nil {
			return err
		}
		return fn(t)
	})
}

// RenamePerson gives a person another name. Coaches only.
func (s *Store) RenamePerson(ctx context.Context, v Viewer, id PersonID, name string) error {
	return s.change(ctx, v, "rename the person", func(t *tx) error {
		if says := drill.CheckName(name); says != "" {
			return problem("name", says)
		}
		return one(t.Queries.RenamePerson(ctx, query.RenamePersonParams{Name: name, ID: id.UUID}))
	})
}

// SetSide says which side a student breaks from, "" for not known. Their sets
// so far stay as they were made. Coaches only.
func (s *Store) SetSide(ctx context.Context, v Viewer, student PersonID, side table.Side) error {
	return s.change(ctx, v, "set the side", func(t *tx) error {
		if side != "" && side != table.Left && side != table.Right {
			return problem("side", "the break side is left or right")
		}
		return one(t.Queries.SetSide(ctx, query.SetSideParams{Side: orNil(string(side)), ID: student.UUID}))
	})
}

// NewCode gives a student another join code, forgets their PIN and signs them
// out everywhere: for a lost sheet or a forgotten PIN. Coaches only.
func (s *Store) NewCode(ctx context.Context, v Viewer, student PersonID) (code string, err error) {
	err = s.change(ctx, v, "make a new code", func(t *tx) error {
		if err := t.ForgetSecret(ctx, student.UUID); err != nil {
			return err
		}
		code, err = t.setCode(ctx, student)
		return err
	})
	return code, err
}

// setCode tries codes inside savepoints, since a taken one breaks a transaction.
func (t *tx) setCode(ctx context.Context, student PersonID) (string, error) {
	for range codeAttempts {
		code := account.NewCode()
		err := t.attempt(ctx, func() error {
			return one(t.Queries.SetCode(ctx, query.SetCodeParams{Code: code, ID: student.UUID}))
		})
		if !isUnique(err, "person_code") {
			return code, err
		}
	}
	return "", errNoCode
}

// attempt does fn in a savepoint, so that the transaction survives its error.
func (t *tx) attempt(ctx context.Context, fn func() error) error {
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
// and what they recorded stays. Not the viewer themself. Coaches only.
func (s *Store) ArchivePerson(ctx context.Context, v Viewer, id PersonID) error {
	return s.change(ctx, v, "archive the person", func(t *tx) error {
		if id == v.Person {
			return refuse(ErrNotAllowed, "another coach has to do this for you")
		}
		if err := t.RevokeSessions(ctx, id.UUID); err != nil {
			return err
		}
		return one(t.Queries.ArchivePerson(ctx, id.UUID))
	})
}

// RestorePerson takes a person back from the archive. Coaches only.
func (s *Store) RestorePerson(ctx context.Context, v Viewer, id PersonID) error {
	return s.change(ctx, v, "restore the person", func(t *tx) error {
		return one(t.Queries.RestorePerson(ctx, id.UUID))
	})
}
