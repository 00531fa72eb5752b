package store

import (
	"context"
	"errors"
	"fmt"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgxpool"

	"breakwright/internal/store/internal/query"
)

// Store is the way to the database. Its methods may be called from many
// goroutines, and several programs may share one database.
type Store struct {
	pool   *pgxpool.Pool
	broker eventBroker
	probe  healthProbe
}

// ErrOpenWalls: the role could read across clubs, so the store does not open.
var ErrOpenWalls = errors.New("this database role can step over the walls between clubs; use the address that AppDSN gives")

// Option changes how a store is opened.
type Option func(*pgxpool.Config)

// WithTracer lets t see every query, for counting and timing them.
func WithTracer(t pgx.QueryTracer) Option {
	return func(c *pgxpool.Config) { c.ConnConfig.Tracer = t }
}

// DefaultConnections is how many connections a store holds at most: a page asks
// for a millisecond or two, so that few serve many.
const DefaultConnections = 10

// WithConnections sets how many connections are held at most.
func WithConnections(n int32) Option {
	return func(c *pgxpool.Config) { c.MaxConns = n }
}

// Open connects as the app role: dsn is what [AppDSN] returns. It refuses with
// [ErrOpenWalls], [ErrPassword], [ErrNoDatabase], [ErrUnavailable] or, when
// [Migrate] has not brought the schema to this program's version,
// [ErrOlderSchema] or [ErrNewerSchema].
func Open(ctx context.Context, dsn string, options ...Option) (*Store, error) {
	config, err := pgxpool.ParseConfig(dsn)
	if err != nil {
		return nil, fmt.Errorf("open the store: %w", err)
	}
	config.AfterConnect = configureUUIDs
	config.MaxConns = DefaultConnections
	WithTimeLimits(DefaultTimeLimits())(config)
	for _, option := range options {
		option(config)
	}
	pool, err := pgxpool.NewWithConfig(ctx, config)
	if err != nil {
		return nil, fmt.Errorf("open the store: %w", connectError(err))
	}
	s := &Store{pool: pool, probe: healthProbe{config: config.ConnConfig}}
	if err := s.checkConnection(ctx); err != nil {
		pool.Close()
		return nil, fmt.Errorf("open the store: %w", err)
	}
	return s, nil
}

func (s *Store) checkConnection(ctx context.Context) error {
	stepsOver, err := query.New(s.pool).CheckRole(ctx)
	if err != nil {
		return connectError(err)
	}
	if stepsOver {
		return ErrOpenWalls
	}
	return checkVersion(ctx, s.pool)
}

// Close waits for calls to end and closes all connections.
func (s *Store) Close() {
	s.probe.close()
	s.pool.Close()
}

// Connections returns how many connections are at work, wait, and may be at most.
func (s *Store) Connections() (used, idle, most int32) {
	stat := s.pool.Stat()
	return stat.AcquiredConns(), stat.IdleConns(), stat.MaxConns()
}
