// Package localpgtest gives the tests of one package a private PostgreSQL: one
// server for the whole test binary, fast and forgetful, in memory where there
// is room. A machine without PostgreSQL fails the tests; it never skips them.
//
// A package whose tests need a database writes
//
//	func TestMain(m *testing.M) { localpgtest.Main(m, nil) }
//
// and asks for [Server] in a test. Without such a TestMain the server starts
// at the first call of Server and ends with the process (Linux only), and its
// folder waits for the next run to sweep it.
package localpgtest

import (
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"go.uber.org/goleak"

	"breakwright/internal/localpg"
)

// Server returns the binary's one server, and starts it when this is the first
// call. Tests share it: keep to databases of your own.
func Server(t testing.TB) *localpg.Server {
	t.Helper()
	server, err := startOnce()
	if err != nil {
		t.Fatal(err)
	}
	return server
}

// Main is the body of a TestMain: it starts the server, with what is prepared when p
// is not nil, runs the tests, stops the server, removes its folder and exits. When the
// tests passed and goroutines of theirs still run at the end, they are shown and it
// fails.
func Main(m *testing.M, p *Preparation) {
	preparation = p // before the first call of Server
	exit := runTests(m)
	if exit == 0 {
		if err := findLeaks(); err != nil {
			fmt.Fprintln(os.Stderr, "all tests passed, but goroutines are left:", err)
			exit = 1
		}
	}
	os.Exit(exit)
}

// lastLease is longer than any computation goes on after the last caller has left.
const lastLease = 15 * time.Second

// findLeaks returns which goroutines still run when everything had time to end.
func findLeaks() error {
	err := goleak.Find()
	for began := time.Now(); err != nil && time.Since(began) < lastLease; {
		err = goleak.Find()
	}
	return err
}

func runTests(m *testing.M) int {
	server, err := startOnce()
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	defer os.RemoveAll(server.Dir)
	defer server.Stop()
	return m.Run()
}

// preparation is that of [Main]; nil without one.
var preparation *Preparation

var startOnce = sync.OnceValues(func() (*localpg.Server, error) {
	base := chooseBaseFolder()
	removeLeftovers(base, time.Now())
	dir, err := os.MkdirTemp(base, prefix)
	if err != nil {
		return nil, err
	}
	return startPrepared(dir, preparation)
})

const prefix = "breakwright-test-"

// bytesNeeded is what the largest test binary's databases take, with a margin:
// bytes.
const bytesNeeded = 1 << 30

// chooseBaseFolder is the memory file system when it has room, which a container's
// often has not, else the folder for temporary files.
func chooseBaseFolder() string {
	if freeBytes("/dev/shm") >= bytesNeeded {
		return "/dev/shm"
	}
	return os.TempDir()
}

// removeLeftovers removes folders that earlier runs left because they were killed. One
// whose lock is held is in use; one younger than a minute may be just about to
// take its lock.
func removeLeftovers(base string, now time.Time) {
	left, _ := filepath.Glob(filepath.Join(base, prefix+"*")) // our pattern is well formed
	for _, dir := range left {
		info, err := os.Stat(dir)
		if err != nil || now.Sub(info.ModTime()) < time.Minute {
			continue
		}
		if !localpg.IsInUse(dir) {
			os.RemoveAll(dir) // another user's stays, and that is as well
		}
	}
}
