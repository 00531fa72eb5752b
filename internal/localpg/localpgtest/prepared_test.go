//go:build !quick

package localpgtest

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/localpg"
)

// addBreak adds a row to the server's table and returns how many it has; the first makes
// the table.
func addBreak(t *testing.T, server *localpg.Server) (breaks int) {
	t.Helper()
	connection, err := pgx.Connect(t.Context(), server.DSN("postgres", "postgres"))
	if err != nil {
		t.Fatal(err)
	}
	defer connection.Close(context.Background())
	if _, err := connection.Exec(t.Context(), "create table if not exists break (); insert into break default values"); err != nil {
		t.Fatal(err)
	}
	if err := connection.QueryRow(t.Context(), "select count(*) from break").Scan(&breaks); err != nil {
		t.Fatal(err)
	}
	return breaks
}

// startWith starts a server for this test with a preparation.
func startWith(t *testing.T, p *Preparation) (*localpg.Server, error) {
	t.Helper()
	dir, err := os.MkdirTemp(chooseBaseFolder(), prefix)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	server, err := startPrepared(dir, p)
	if err == nil {
		t.Cleanup(server.Stop)
	}
	return server, err
}

// useOwnCaches lets a test keep what is prepared in a folder of its own.
func useOwnCaches(t *testing.T) {
	t.Helper()
	home := t.TempDir()
	t.Setenv("HOME", home)
	t.Setenv("XDG_CACHE_HOME", filepath.Join(home, "caches"))
}

func TestPreparation_IsMadeOnceForAKey(t *testing.T) {
	useOwnCaches(t)
	made := 0
	p := &Preparation{Key: "one break", Make: func(server *localpg.Server) error {
		made++
		addBreak(t, server)
		return nil
	}}
	for n := range 3 { // none sees what the one before has added
		server, err := startWith(t, p)
		if err != nil {
			t.Fatal(err)
		}
		if got := addBreak(t, server); got != 2 || made != 1 {
			t.Errorf("start %d has %d breaks with its own, want 2, and was prepared %d times", n, got, made)
		}
	}
	p.Key = "another break"
	if _, err := startWith(t, p); err != nil || made != 2 {
		t.Errorf("with another key it was prepared %d times in all (%v), want 2", made, err)
	}
}

func TestPreparation_ThatFailsIsNotKept(t *testing.T) {
	useOwnCaches(t)
	broken := errors.New("no such drill")
	p := &Preparation{Key: "broken", Make: func(*localpg.Server) error { return broken }}
	for range 2 {
		if _, err := startWith(t, p); !errors.Is(err, broken) {
			t.Errorf("it starts with %v, want what went wrong", err)
		}
	}
}

func TestRemoveUnused_LeavesWhatTestsAskFor(t *testing.T) {
	place, now := t.TempDir(), time.Now()
	for name, age := range map[string]time.Duration{"prepared-old": keptUnused + time.Hour, "prepared-new": keptUnused - time.Hour, "other": 2 * keptUnused} {
		folder := filepath.Join(place, name)
		if err := errors.Join(os.Mkdir(folder, 0o700), os.Chtimes(folder, now, now.Add(-age))); err != nil {
			t.Fatal(err)
		}
	}
	removeUnused(place, now)
	left, err := filepath.Glob(filepath.Join(place, "*"))
	if err != nil || len(left) != 2 || filepath.Base(left[0]) != "other" || filepath.Base(left[1]) != "prepared-new" {
		t.Errorf("left are %q (%v), want other and prepared-new", left, err)
	}
}
