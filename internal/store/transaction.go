package store

import (
	"context"
	"errors"
	"fmt"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
	"github.com/jackc/pgx/v5/pgxpool"

	"breakwright/internal/store/internal/query"
)

// tx is one transaction in the name of an actor.
type tx struct {
	*query.Queries
	conn   *pgxpool.Conn
	actor  Actor
	events []Event
}

// inTransaction does fn in one transaction in the name of v; what fn announces is told
// after the commit. The transaction is READ COMMITTED: rows that must not
// change meanwhile are locked by the queries named Lock…. An error of fn, or of
// the database, undoes everything and comes back with what was being done.
func (s *Store) inTransaction(ctx context.Context, v Actor, doing string, fn func(*tx) error) (err error) {
	conn, err := s.acquire(ctx)
	if err != nil {
		return wrapError(doing, err)
	}
	t := &tx{Queries: query.New(conn), conn: conn, actor: v}
	defer conn.Release() // closes a connection that is still in a transaction
	if err := t.run(ctx, fn); err != nil {
		return wrapError(doing, lostConnectionError(conn, err))
	}
	return nil
}

// acquire returns a connection of the pool, or [ErrUnavailable] when none is free
// or can be made in time.
func (s *Store) acquire(ctx context.Context) (*pgxpool.Conn, error) {
	limited, cancel := context.WithTimeout(ctx, s.probe.config.ConnectTimeout)
	defer cancel()
	conn, err := s.pool.Acquire(limited)
	if err != nil && ctx.Err() == nil && limited.Err() != nil {
		return nil, fmt.Errorf("%w: no connection came free in time: %w", ErrUnavailable, err)
	}
	return conn, connectError(err)
}

// run does fn between begin and commit.
func (t *tx) run(ctx context.Context, fn func(*tx) error) error {
	if err := t.beginAsActor(ctx); err != nil {
		return err
	}
	err := fn(t)
	if err == nil {
		err = t.commit(ctx)
	}
	if err != nil {
		t.rollBack(ctx)
	}
	return err
}

// beginAsActor starts the transaction and says who asks, in one round trip.
func (t *tx) beginAsActor(ctx context.Context) error {
	var batch pgx.Batch
	batch.Queue("begin")
	batch.Queue(query.SetActor, t.actor.Club.String(), t.actor.Person.String(), string(t.actor.Role))
	return t.conn.SendBatch(ctx, &batch).Close()
}

var errRolledBack = errors.New("the database rolled the transaction back")

// commit writes the note that the context carries, if any, tells the events and ends
// the transaction, in one round trip. Where one of them fails, those after it are not
// done.
func (t *tx) commit(ctx context.Context) error {
	var batch pgx.Batch
	if n, ok := ctx.Value(noteKey{}).(Note); ok {
		batch.Queue(query.WriteNote, string(n.Act), n.Place, n.About, true)
	}
	for _, event := range t.events {
		batch.Queue(query.NotifyEvent, event.encodeJSON())
	}
	batch.Queue("commit").Exec(func(tag pgconn.CommandTag) error {
		if tag.String() == "ROLLBACK" {
			return errRolledBack
		}
		return nil
	})
	return t.conn.SendBatch(ctx, &batch).Close()
}

// rollBack needs no answer: a connection that stays in a transaction is closed
// when it is released.
func (t *tx) rollBack(ctx context.Context) {
	if !t.conn.Conn().IsClosed() {
		_, _ = t.conn.Exec(context.WithoutCancel(ctx), "rollback")
	}
}

// asAdviser does fn in the adviser's role for one student, and then is the
// actor again. Only advice, prescriptions and setups are written so, and others' breaks
// counted.
func (t *tx) asAdviser(ctx context.Context, student PersonID, fn func() error) error {
	if err := t.switchActor(ctx, Actor{Club: t.actor.Club, Person: student, Role: adviserRole}); err != nil {
		return err
	}
	if err := fn(); err != nil {
		return err
	}
	return t.switchActor(ctx, t.actor)
}

func (t *tx) switchActor(ctx context.Context, v Actor) error {
	return t.SetActor(ctx, query.SetActorParams{Club: v.Club.String(), Person: v.Person.String(), Role: string(v.Role)})
}

// requireChangedRow turns "no row changed" into not found.
func requireChangedRow(rows int64, err error) error {
	if err == nil && rows == 0 {
		return ErrNotFound
	}
	return err
}

// readInTransaction does fn in a transaction and returns what it found.
func readInTransaction[T any](ctx context.Context, s *Store, v Actor, doing string, fn func(*tx) (T, error)) (found T, err error) {
	err = s.inTransaction(ctx, v, doing, func(t *tx) error {
		found, err = fn(t)
		return err
	})
	if err != nil {
		var none T
		return none, err
	}
	return found, nil
}

// withoutActor does fn without anybody known, outside of a transaction of our own.
func (s *Store) withoutActor(ctx context.Context, doing string, fn func(*query.Queries) error) error {
	conn, err := s.acquire(ctx)
	if err != nil {
		return wrapError(doing, err)
	}
	defer conn.Release()
	if err := fn(query.New(conn)); err != nil {
		return wrapError(doing, lostConnectionError(conn, err))
	}
	return nil
}
