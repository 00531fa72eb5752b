package cluster

import (
	"errors"
	"os"
	"os/exec"
	"syscall"
)

// account exists on Windows so that the program builds there; a private server
// needs unix sockets, signals and file locks that this package does not speak.
type account struct {
	name  string
	drops bool
}

func accountFor(string) (account, error) {
	return account{}, errors.New("a private PostgreSQL needs Linux or macOS: on Windows install PostgreSQL and set DATABASE_URL")
}

func (account) give(string) error { return nil }

func (account) command(_, program string, arguments ...string) *exec.Cmd {
	return exec.Command(program, arguments...)
}

func lockFile(*os.File) (bool, error) { return false, errors.ErrUnsupported }

const (
	fastShutdown      = syscall.SIGINT
	immediateShutdown = syscall.SIGQUIT
)
