package localpgtest

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"breakwright/internal/localpg"
)

// Freeze stops a server's processes where they are: connections stay open and
// nobody answers. What it returns lets them go on, as the end of the test does.
func Freeze(t testing.TB, server *localpg.Server) (thaw func()) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(server.Dir, "data", "postmaster.pid"))
	if err != nil {
		t.Fatal(err)
	}
	first, _, _ := strings.Cut(string(text), "\n")
	postmaster, err := strconv.Atoi(first)
	if err != nil {
		t.Fatal(err)
	}
	signal(postmaster, syscall.SIGSTOP) // first, so that it makes no more of them
	thaw = func() {
		for _, child := range childrenOf(postmaster) {
			signal(child, syscall.SIGCONT)
		}
		signal(postmaster, syscall.SIGCONT)
	}
	t.Cleanup(thaw) // before the server is stopped, which was asked for earlier
	for _, child := range childrenOf(postmaster) {
		signal(child, syscall.SIGSTOP)
	}
	return thaw
}

// signal is for processes that may have ended meanwhile.
func signal(process int, s syscall.Signal) { _ = syscall.Kill(process, s) }

// childrenOf lists the processes that a process has started (proc(5)).
func childrenOf(parent int) []int {
	var children []int
	lists, _ := filepath.Glob("/proc/[0-9]*/stat") // the pattern is well formed
	for _, list := range lists {
		text, err := os.ReadFile(list)
		if err != nil {
			continue // it has ended
		}
		var process, its int
		var state string
		_, rest, _ := strings.Cut(string(text), ") ") // a name may hold anything
		if _, err := fmt.Sscan(rest, &state, &its); err != nil || its != parent {
			continue
		}
		if _, err := fmt.Sscan(string(text), &process); err == nil {
			children = append(children, process)
		}
	}
	return children
}
