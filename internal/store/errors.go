package store

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
	"github.com/jackc/pgx/v5/pgxpool"

	"breakwright/internal/drill"
)

// The kinds of refusal. Test for them with errors.Is. Input that cannot be is
// refused with [drill.Problems], a sentence for each field; use errors.As.
var (
	// ErrNotFound: there is no such thing, or the actor may not know of it.
	ErrNotFound = errors.New("not found")
	// ErrNotAllowed: the actor may see it but not do this.
	ErrNotAllowed = errors.New("not allowed")
	// ErrConflict: something else is there already, or was done before.
	ErrConflict = errors.New("in conflict with what is there")
	// ErrFull: there is no room for more of its kind; the sentence says what to do.
	ErrFull = errors.New("there is no room for more")
	// ErrClosed: the set is closed and its breaks stay as they are.
	ErrClosed = errors.New("the set is closed")
	// ErrStale: a newer revision of the break is kept already.
	ErrStale = errors.New("a newer revision is kept already")
	// ErrUnavailable: the database cannot be reached just now, or did not
	// answer in time. Whether a write arrived is not known; it is safe to repeat.
	ErrUnavailable = errors.New("the database cannot be reached")
	// ErrUnkeepable: something in the input has no place in the database, such
	// as a letter that is none or a number beyond all bounds.
	ErrUnkeepable = errors.New("something in it cannot be kept")
)

// newRefusal is an error of a kind with a sentence for people.
func newRefusal(kind error, sentence string, args ...any) error {
	return &refusalError{kind: kind, sentence: fmt.Sprintf(sentence, args...)}
}

// SentenceOf returns the store's sentence for people, which an error of a kind may
// have; "" for one without, such as an error of the database.
func SentenceOf(err error) string {
	var refusal *refusalError
	if errors.As(err, &refusal) {
		return refusal.sentence
	}
	return ""
}

type refusalError struct {
	kind     error
	sentence string
}

func (r *refusalError) Error() string { return r.sentence }
func (r *refusalError) Unwrap() error { return r.kind }

// fieldProblem is invalid input in one field.
func fieldProblem(field, says string) error { return drill.Problems{{Field: field, Message: says}} }

// PostgreSQL's error codes (manual, appendix A).
const (
	codeUnique     = "23505"
	codeForeign    = "23503"
	codePrivilege  = "42501" // also a row that a policy refuses
	codeNoDatabase = "3D000"
	codePassword   = "28P01"
	codeLogin      = "28000"
	codeCheck      = "23514"
	codeReadOnly   = "25006"
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
	case errors.Is(err, ErrUnavailable), errors.Is(err, context.Canceled):
		return err
	case errors.As(err, &connecting), errors.Is(err, context.DeadlineExceeded):
		return fmt.Errorf("%w: %w", ErrUnavailable, err)
	case !errors.As(err, &answered):
		return err
	}
	if kind := kindOfCode(answered.Code); kind != nil {
		return fmt.Errorf("%w: %w", kind, err)
	}
	return err
}

// kindOfCode returns the kind of what PostgreSQL answered; nil when that is a
// mistake of ours.
func kindOfCode(code string) error {
	switch code {
	case codeUnique:
		return ErrConflict
	case codeForeign:
		return ErrNotFound
	case codePrivilege:
		return ErrNotAllowed
	case codeCheck:
		return ErrUnkeepable
	}
	switch {
	case slices.Contains(unavailableCodes, code), slices.Contains(unavailableClasses, code[:min(2, len(code))]):
		return ErrUnavailable
	case strings.HasPrefix(code, "22"): // data exception
		return ErrUnkeepable
	}
	return nil
}

// unavailableClasses are the classes of errors that are nobody's fault here:
// the connection, a lack of room or memory, an administrator's stop, the system.
var unavailableClasses = []string{"08", "53", "57", "58"}

// unavailableCodes are further codes of that kind: a standby that cannot write,
// a transaction that was idle for too long, a lock that did not come, and two
// transactions in each other's way.
var unavailableCodes = []string{"25006", "25P03", "25P04", "55P03", "40001", "40P01"}

// lostConnectionError gives the kind to an error after which the connection is
// gone: whatever the reason, nobody was there to answer. A connection to a
// standby is closed, so that the next one looks for the leader.
func lostConnectionError(conn *pgxpool.Conn, err error) error {
	var answered *pgconn.PgError
	if errors.As(err, &answered) {
		if answered.Code == codeReadOnly {
			_ = conn.Conn().Close(context.Background())
		}
		return err
	}
	if conn.Conn().IsClosed() && !errors.Is(err, context.Canceled) && !errors.Is(err, ErrUnavailable) {
		return fmt.Errorf("%w: the connection was lost: %w", ErrUnavailable, err)
	}
	return err
}

// isNoRow reports whether the database found no such row.
func isNoRow(err error) bool { return errors.Is(err, pgx.ErrNoRows) }

// violatesUnique reports whether the named unique index refused a row.
func violatesUnique(err error, index string) bool {
	var answered *pgconn.PgError
	return errors.As(err, &answered) && answered.Code == codeUnique && answered.ConstraintName == index
}
