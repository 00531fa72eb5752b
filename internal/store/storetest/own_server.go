package storetest

import (
	"testing"

	"breakwright/internal/localpg"
)

// MigrateOn makes the migrated database of a server of the test's own, or finds the
// one that was made, and returns its owner's address.
func MigrateOn(t testing.TB, server *localpg.Server) (ownerDSN string) {
	t.Helper()
	if err := makeTemplate(server); err != nil {
		t.Fatal(err)
	}
	return server.DSN(superuser, template)
}
