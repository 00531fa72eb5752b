//go:build !linux

package localpgtest

import (
	"testing"

	"breakwright/internal/localpg"
)

// Freeze needs Linux's list of processes.
func Freeze(t testing.TB, _ *localpg.Server) (thaw func()) {
	t.Helper()
	t.Fatal("only on Linux can a server be frozen")
	return nil
}
