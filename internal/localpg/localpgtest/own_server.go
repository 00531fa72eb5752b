package localpgtest

import (
	"context"
	"os"
	"testing"

	"breakwright/internal/localpg"
)

// NewServer starts a server for one test alone, prepared as the binary's is, which may
// stop or freeze it; it ends with the test.
func NewServer(t testing.TB) *localpg.Server {
	t.Helper()
	dir, err := os.MkdirTemp(chooseBaseFolder(), prefix)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	server, err := startPrepared(dir, preparation)
	return keepRunning(t, server, err)
}

// StartIn starts a server in a folder, new or again; it ends with the test.
func StartIn(t testing.TB, dir string) *localpg.Server {
	t.Helper()
	server, err := localpg.Start(context.Background(), localpg.Config{Dir: dir})
	return keepRunning(t, server, err)
}

// keepRunning lets a server that has started run until the test ends.
func keepRunning(t testing.TB, server *localpg.Server, err error) *localpg.Server {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(server.Stop)
	return server
}
