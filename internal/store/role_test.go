package store

import (
	"context"
	"strings"
	"testing"

	"github.com/jackc/pgx/v5"

	"breakwright/internal/localpg/localpgtest"
)

// The tests' server lets everyone in without a password, so that a password is
// set is looked up where PostgreSQL keeps it.
func TestWriteRole_SetsThePassword(t *testing.T) {
	t.Parallel()
	owner, err := pgx.Connect(t.Context(), localpgtest.Server(t).DSN("postgres", "postgres"))
	if err != nil {
		t.Fatal(err)
	}
	defer owner.Close(context.Background())
	kept := func() (secret string) {
		if err := owner.QueryRow(t.Context(), "select coalesce(rolpassword, '') from pg_authid where rolname = $1", AppRole).Scan(&secret); err != nil {
			t.Fatal(err)
		}
		return secret
	}
	var before string
	for _, password := range []string{appPassword("one"), appPassword("two")} {
		if err := writeRole(t.Context(), owner, password); err != nil {
			t.Fatal(err)
		}
		if got := kept(); !strings.HasPrefix(got, "SCRAM-SHA-256$") || got == before {
			t.Errorf("the role's password is kept as %q", got)
		}
		before = kept()
	}
	if err := writeRole(t.Context(), owner, ""); err != nil {
		t.Fatal(err)
	}
	if got := kept(); got != "" {
		t.Errorf("without a password it is kept as %q", got)
	}
}
