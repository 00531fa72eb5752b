// Package storetest gives tests a store over a real PostgreSQL, and a club to
// begin with. The schema is migrated once, into a template that is kept for every test
// binary; each test gets a database copied from it, so tests may run in parallel and
// leave anything behind. The store works as the app role, behind the walls, as the
// program does.
//
// A package whose tests use it writes
//
//	func TestMain(m *testing.M) { storetest.Main(m) }
package storetest

import (
	"context"
	"crypto/sha256"
	"fmt"
	"io/fs"
	"sync"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/localpg"
	"breakwright/internal/localpg/localpgtest"
	"breakwright/internal/store"
	migrations "breakwright/sql"
)

// Main is the body of a TestMain.
func Main(m *testing.M) {
	localpgtest.Main(m, &localpgtest.Preparation{Key: hashMigrations(), Make: makeTemplate})
}

// hashMigrations is another for any other migration.
func hashMigrations() string {
	hash := sha256.New()
	err := fs.WalkDir(migrations.Migrations, ".", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := migrations.Migrations.ReadFile(path)
		fmt.Fprintf(hash, "%s\n%s", path, text)
		return err
	})
	if err != nil {
		panic(err) // they are embedded
	}
	return fmt.Sprintf("%x", hash.Sum(nil))
}

// New returns a store over a database of the test's own, migrated and empty. It
// is closed when the test ends.
func New(t testing.TB, options ...store.Option) *store.Store {
	t.Helper()
	return Open(t, NewDatabase(t), options...)
}

// patience is what tests give the database: a machine that runs every package at
// once with the race detector is slow, and no test is about that unless it says so.
func patience() store.TimeLimits {
	limits := store.DefaultTimeLimits()
	limits.Connection, limits.Statement = time.Minute, 2*time.Minute
	return limits
}

// Open returns a store over the owner's database, as the app role. Its time limits
// are wide; options may set others.
func Open(t testing.TB, ownerDSN string, options ...store.Option) *store.Store {
	t.Helper()
	dsn, err := store.AppDSN(ownerDSN, "")
	if err != nil {
		t.Fatal(err)
	}
	s, err := store.Open(context.Background(), dsn, append([]store.Option{store.WithTimeLimits(patience())}, options...)...)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.Close)
	return s
}

// NewDatabase makes a migrated database of the test's own and returns its owner's
// address.
func NewDatabase(t testing.TB) (ownerDSN string) {
	t.Helper()
	if err := ensureTemplate(t); err != nil {
		t.Fatal(err)
	}
	return createDatabase(t, " template "+template+" strategy file_copy")
}

// CopyDatabase makes a copy of a database of this package that nobody is connected to,
// and returns its owner's address.
func CopyDatabase(t testing.TB, ownerDSN string) (copied string) {
	t.Helper()
	config, err := pgx.ParseConfig(ownerDSN)
	if err != nil {
		t.Fatal(err)
	}
	return createDatabase(t, " template "+pgx.Identifier{config.Database}.Sanitize()+" strategy file_copy")
}

// NewEmptyDatabase makes a database in which nothing was migrated.
func NewEmptyDatabase(t testing.TB) (ownerDSN string) {
	t.Helper()
	return createDatabase(t, "")
}

const (
	superuser = "postgres"
	template  = "breakwright_template"
)

var templateLock struct {
	sync.Mutex // PostgreSQL copies one template at a time anyway
	databases  int
	migrated   bool
	failed     error
}

func createDatabase(t testing.TB, like string) string {
	t.Helper()
	server := localpgtest.Server(t)
	templateLock.Lock()
	defer templateLock.Unlock()
	templateLock.databases++
	name := fmt.Sprintf("test_%d", templateLock.databases)
	if err := runStatement(server, "create database "+name+like); err != nil {
		t.Fatal(err)
	}
	return server.DSN(superuser, name)
}

// ensureTemplate makes the template, once, or finds that the kept one is current.
func ensureTemplate(t testing.TB) error {
	t.Helper()
	server := localpgtest.Server(t)
	templateLock.Lock()
	defer templateLock.Unlock()
	if !templateLock.migrated {
		templateLock.failed = makeTemplate(server)
		templateLock.migrated = true
	}
	return templateLock.failed
}

func makeTemplate(server *localpg.Server) error {
	if err := server.EnsureDatabase(context.Background(), template); err != nil {
		return err
	}
	_, err := store.Migrate(context.Background(), server.DSN(superuser, template), "")
	return err
}

func runStatement(server *localpg.Server, statement string) error {
	ctx := context.Background()
	connection, err := pgx.Connect(ctx, server.DSN(superuser, superuser))
	if err != nil {
		return err
	}
	defer connection.Close(ctx)
	if _, err := connection.Exec(ctx, statement); err != nil {
		return fmt.Errorf("%s: %w", statement, err)
	}
	return nil
}
