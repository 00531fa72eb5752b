package store

import (
	"context"
	"errors"
	"fmt"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgxpool"

	"breakwright/internal/store/internal/query"
)

// tx is one transaction in the name of a viewer.
type tx struct {
	*query.Queries
	conn   *pgxpool.Conn
	viewer Viewer
	events []Event
}

// in does fn in one transaction in the name of v; what fn announces is told
// after the commit. The transaction is READ COMMITTED: rows that must not
// change meanwhile are locked by the queries named Lock…. An error of fn, or of
// the database, undoes everything and comes back with what was being done.
func (s *Store) in(ctx context.Context, v Viewer, doing string, fn func(*tx) error) (err error) {
	conn, err := s.pool.Acquire(ctx)
	if err != nil {
		return explain(doing, connectError(err))
	}
	t := &tx{Queries: query.New(conn), conn: conn, viewer: v}
	defer conn.Release() // closes a connection that is still in a transaction
	if err := t.begin(ctx); err != nil {
		return explain(doing, err)
	}
	if err := fn(t); err != nil {
		t.rollback(ctx)
		return explain(doing, err)
	}
	return explain(doing, t.commit(ctx))
}

// begin starts the transaction and says who asks, in one round trip.
func (t *tx) begin(ctx context.Context) error {
	var batch pgx.Batch
	batch.Queue("begin")
	batch.Queue(setViewer, t.viewer.Club.String(), t.viewer.Person.String(), string(t.viewer.Role))
	return t.conn.SendBatch(ctx, &batch).Close()
}

// setViewer stands here because sqlc cannot put a query into one batch with
// "begin". The settings end with the transaction.
const setViewer = "select set_config('app.club_id', $1, true), set_config('app.person_id', $2, true), set_config('app.role', $3, true)"

var errRolledBack = errors.New("the database rolled the transaction back")

// commit tells the events and ends the transaction, in one round trip.
func (t *tx) commit(ctx context.Context) error {
	for _, event := range t.events {
		if err := t.Notify(ctx, event.payload()); err != nil {
			return err
		}
	}
	tag, err := t.conn.Exec(ctx, "commit")
	if err != nil {
		return err
	}
	if tag.String() == "ROLLBACK" {
		return errRolledBack
	}
	return nil
}

// rollback needs no answer: a connection that stays in a transaction is closed
// when it is released.
func (t *tx) rollback(ctx context.Context) {
	_, _ = t.conn.Exec(context.WithoutCancel(ctx), "rollback")
}

// asAdviser does fn in the adviser's role for one student, and then is the
// viewer again. Only advice, prescriptions and setups are written so.
func (t *tx) asAdviser(ctx context.Context, student PersonID, fn func() error) error {
	if err := t.become(ctx, Viewer{Club: t.viewer.Club, Person: student, Role: adviser}); err != nil {
		return err
	}
	if err := fn(); err != nil {
		return err
	}
	return t.become(ctx, t.viewer)
}

func (t *tx) become(ctx context.Context, v Viewer) error {
	_, err := t.conn.Exec(ctx, setViewer, v.Club.String(), v.Person.String(), string(v.Role))
	return err
}

// one turns "no row changed" into not found.
func one(rows int64, err error) error {
	if err == nil && rows == 0 {
		return ErrNotFound
	}
	return err
}

// read does fn in a transaction and gives what it found.
func read[T any](ctx context.Context, s *Store, v Viewer, doing string, fn func(*tx) (T, error)) (found T, err error) {
	err = s.in(ctx, v, doing, func(t *tx) error {
		found, err = fn(t)
		return err
	})
	if err != nil {
		var none T
		return none, err
	}
	return found, nil
}

// door does fn without anybody known, outside of a transaction of our own.
func (s *Store) door(ctx context.Context, doing string, fn func(*query.Queries) error) error {
	err := fn(query.New(s.pool))
	if err != nil {
		return fmt.Errorf("%s: %w", doing, kindOf(connectError(err)))
	}
	return nil
}
