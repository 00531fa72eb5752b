package storetest

import (
	"context"
	"testing"

	"breakwright/internal/localpg"
	"breakwright/internal/store"
)

// MigrateOn makes a migrated database on a server of the test's own, or finds
// the one that was made, and gives its owner's address.
func MigrateOn(t testing.TB, server *localpg.Server) (ownerDSN string) {
	t.Helper()
	const name = "club"
	if err := server.EnsureDatabase(context.Background(), name); err != nil {
		t.Fatal(err)
	}
	ownerDSN = server.DSN(superuser, name)
	if _, err := store.Migrate(context.Background(), ownerDSN, ""); err != nil {
		t.Fatal(err)
	}
	return ownerDSN
}
