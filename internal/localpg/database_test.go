//go:build !quick

package localpg

import (
	"testing"

	"github.com/jackc/pgx/v5"
	"golang.org/x/sync/errgroup"
)

func TestEnsureDatabase(t *testing.T) {
	server := startIn(t, newFolder(t))
	for _, name := range []string{"breakwright", `Nine-Ball "club"`} {
		var makers errgroup.Group
		for range 4 {
			makers.Go(func() error { return server.EnsureDatabase(t.Context(), name) })
		}
		if err := makers.Wait(); err != nil {
			t.Fatalf("%s, four at once: %v", name, err)
		}
		connection := connect(t, server, name)
		if _, err := connection.Exec(t.Context(), "create table kept ()"); err != nil {
			t.Fatal(err)
		}
		if err := server.EnsureDatabase(t.Context(), name); err != nil {
			t.Fatal(err)
		}
		var count int
		if err := connection.QueryRow(t.Context(), "select count(*) from kept").Scan(&count); err != nil {
			t.Errorf("%s was made anew: %v", name, err)
		}
	}
}

func TestDSN_SurvivesOddNames(t *testing.T) {
	server := &Server{socket: socketFolder{folder: "/a b/c&d=é"}}
	config, err := pgx.ParseConfig(server.DSN("app user@1", "club/two ?"))
	if err != nil {
		t.Fatal(err)
	}
	if config.Host != "/a b/c&d=é" || config.User != "app user@1" || config.Database != "club/two ?" || config.Port != 5432 {
		t.Errorf("read back as host %q, user %q, database %q, port %d", config.Host, config.User, config.Database, config.Port)
	}
}
