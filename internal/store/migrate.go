package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
	"github.com/jackc/pgx/v5/pgxpool"
	"github.com/jackc/pgx/v5/stdlib"
	"github.com/pressly/goose/v3"

	"breakwright/internal/store/internal/query"
	migrations "breakwright/sql"
)

// What can be wrong with a database before any call is made.
var (
	ErrNewerSchema = errors.New("the database was made by a newer version of this program; install that one, or restore the backup made before the upgrade")
	ErrOlderSchema = errors.New("the database is older than this program; run the migrations first")
	ErrPassword    = errors.New("the database refuses the user or the password in its address")
	ErrNoDatabase  = errors.New("there is no database of that name on the server")
	ErrOldServer   = errors.New("PostgreSQL 15 or newer is needed")
	ErrRole        = errors.New("the owner of the database may not make roles")
)

// MigrationResult says what [Migrate] did.
type MigrationResult struct {
	From, To int64 // versions of the schema; 0 is an empty database
}

// Migrate brings the schema of the owner's database to this program's version
// and makes or mends the role that [AppDSN] with the same secret returns. Programs
// that start together wait for one another. Repeating it changes nothing.
//
// Errors to test for: [ErrNewerSchema], [ErrPassword], [ErrNoDatabase],
// [ErrUnavailable], [ErrOldServer], [ErrRole], [ErrOpenWalls].
func Migrate(ctx context.Context, ownerDSN, secret string) (MigrationResult, error) {
	done, err := migrateSchema(ctx, ownerDSN, secret)
	if err != nil {
		return MigrationResult{}, fmt.Errorf("migrate the database: %w", err)
	}
	return done, nil
}

func migrateSchema(ctx context.Context, ownerDSN, secret string) (MigrationResult, error) {
	owner, err := connectAsOwner(ctx, ownerDSN)
	if err != nil {
		return MigrationResult{}, err
	}
	defer owner.Close(context.WithoutCancel(ctx))
	if err := checkServer(owner.PgConn().ParameterStatus("server_version")); err != nil {
		return MigrationResult{}, err
	}
	// Held until the connection closes, so that one program migrates at a time.
	if _, err := owner.Exec(ctx, "select pg_advisory_lock($1)", migrationLock); err != nil {
		return MigrationResult{}, err
	}
	if err := ensureRole(ctx, owner, ownerDSN, secret); err != nil {
		return MigrationResult{}, err
	}
	return applyMigrations(ctx, owner.Config())
}

// connectAsOwner connects within a limit of time for each host of the address.
// What is asked there may take as long as it needs.
func connectAsOwner(ctx context.Context, ownerDSN string) (*pgx.Conn, error) {
	config, err := pgx.ParseConfig(ownerDSN)
	if err != nil {
		return nil, err
	}
	if config.ConnectTimeout == 0 {
		config.ConnectTimeout = DefaultTimeLimits().Connection
	}
	owner, err := pgx.ConnectConfig(ctx, config)
	return owner, connectError(err)
}

// migrationLock is any number that nothing else in the database locks.
const migrationLock int64 = 0x627265616b // "break"

func applyMigrations(ctx context.Context, config *pgx.ConnConfig) (MigrationResult, error) {
	db := stdlib.OpenDB(*config)
	defer db.Close()
	provider, err := newProvider(db)
	if err != nil {
		return MigrationResult{}, err
	}
	from, err := provider.GetDBVersion(ctx)
	if err != nil {
		return MigrationResult{}, err
	}
	if from > newestVersion(provider) {
		return MigrationResult{}, ErrNewerSchema
	}
	if _, err := provider.Up(ctx); err != nil {
		return MigrationResult{}, err
	}
	return MigrationResult{From: from, To: newestVersion(provider)}, nil
}

func newProvider(db *sql.DB) (*goose.Provider, error) {
	files, err := fs.Sub(migrations.Migrations, "migrations")
	if err != nil {
		return nil, err
	}
	return goose.NewProvider(goose.DialectPostgres, db, files)
}

func newestVersion(p *goose.Provider) int64 {
	sources := p.ListSources()
	return sources[len(sources)-1].Version
}

// SchemaVersion is the version of the schema that this program works with.
func SchemaVersion() int64 {
	names, err := fs.Glob(migrations.Migrations, "migrations/*.sql")
	if err != nil || len(names) == 0 {
		panic("store: no migrations are built in")
	}
	version, err := goose.NumericComponent(names[len(names)-1])
	if err != nil {
		panic("store: " + err.Error())
	}
	return version
}

// checkVersion compares the schema with this program, as the app role.
func checkVersion(ctx context.Context, pool *pgxpool.Pool) error {
	version, err := query.New(pool).GetSchemaVersion(ctx)
	var answered *pgconn.PgError
	switch {
	case errors.As(err, &answered): // not even the function is there
		return fmt.Errorf("%w: %w", ErrOlderSchema, err)
	case err != nil:
		return connectError(err)
	case version < SchemaVersion():
		return ErrOlderSchema
	case version > SchemaVersion():
		return ErrNewerSchema
	}
	return nil
}

// checkServer reads the server's version: "15.8 (Debian 15.8-1)" or "17beta1".
func checkServer(version string) error {
	var major int
	if _, err := fmt.Sscanf(version, "%d", &major); err != nil || major < 15 {
		return fmt.Errorf("%w: this server is %s", ErrOldServer, version)
	}
	return nil
}

// connectError returns the reason why a connection failed.
func connectError(err error) error {
	var answered *pgconn.PgError
	var connecting *pgconn.ConnectError
	switch {
	case errors.As(err, &answered) && (answered.Code == codePassword || answered.Code == codeLogin):
		return fmt.Errorf("%w: %w", ErrPassword, err)
	case errors.As(err, &answered) && answered.Code == codeNoDatabase:
		return fmt.Errorf("%w: %w", ErrNoDatabase, err)
	case errors.As(err, &connecting):
		return fmt.Errorf("%w: %w", ErrUnavailable, err)
	}
	return err
}
