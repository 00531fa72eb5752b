package store

import (
	"context"
	"errors"
	"fmt"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"

	"breakwright/internal/drill"
)

// The kinds of refusal. Test for them with errors.Is. Input that cannot be is
// refused with [drill.Problems], a sentence for each field; use errors.As.
var (
	// ErrNotFound: there is no such thing, or the viewer may not know of it.
	ErrNotFound = errors.New("not found")
	// ErrNotAllowed: the viewer may see it but not do this.
	ErrNotAllowed = errors.New("not allowed")
	// ErrConflict: something else is there already, or was done before.
	ErrConflict = errors.New("in conflict with what is there")
	// ErrClosed: the set is closed and its breaks stay as they are.
	ErrClosed = errors.New("the set is closed")
	// ErrStale: a newer revision of the break is kept already.
	ErrStale = errors.New("a newer revision is kept already")
	// ErrUnavailable: the database cannot be reached just now.
	ErrUnavailable = errors.New("the database cannot be reached")
)

// newRefusal is an error of a kind with a sentence for people.
func newRefusal(kind error, sentence string, args ...any) error {
	return &refusalError{kind: kind, sentence: fmt.Sprintf(sentence, args...)}
}

type refusalError struct {
	kind     error
	sentence string
}

func (r *refusalError) Error() string { return r.sentence }
func (r *refusalError) Unwrap() error { return r.kind }

// fieldProblem is invalid input in one field.
func fieldProblem(field, says string) error { return drill.Problems{{Field: field, Says: says}} }

// PostgreSQL's error codes (manual, appendix A).
const (
	codeUnique     = "23505"
	codeForeign    = "23503"
	codePrivilege  = "42501" // also a row that a policy refuses
	codeNoDatabase = "3D000"
	codePassword   = "28P01"
	codeLogin      = "28000"
)

// wrapError gives an error of the database its kind and says what was being done.
func wrapError(doing string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%s: %w", doing, classifyError(err))
}

func classifyError(err error) error {
	var answered *pgconn.PgError
	var connecting *pgconn.ConnectError
	switch {
	case errors.Is(err, pgx.ErrNoRows):
		return ErrNotFound
	case errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return err
	case errors.As(err, &connecting):
		return fmt.Errorf("%w: %w", ErrUnavailable, err)
	case !errors.As(err, &answered):
		return err
	}
	switch answered.Code {
	case codeUnique:
		return fmt.Errorf("%w: %w", ErrConflict, err)
	case codeForeign:
		return fmt.Errorf("%w: %w", ErrNotFound, err)
	case codePrivilege:
		return fmt.Errorf("%w: %w", ErrNotAllowed, err)
	}
	return err
}

// violatesUnique says whether the named unique index refused a row.
func violatesUnique(err error, index string) bool {
	var answered *pgconn.PgError
	return errors.As(err, &answered) && answered.Code == codeUnique && answered.ConstraintName == index
}
