package localpg

import (
	"errors"
	"os"
	"os/exec"
	"syscall"
)

// osAccount exists on Windows so that the program builds there; a private server
// needs unix sockets, signals and file locks that this package does not speak.
type osAccount struct {
	name      string
	dropsRoot bool
}

func chooseAccount(string) (osAccount, error) {
	return osAccount{}, errors.New("a private PostgreSQL needs Linux or macOS: on Windows install PostgreSQL and set DATABASE_URL")
}

func (osAccount) chownPath(string) error { return nil }

func (osAccount) newCommand(_, program string, arguments ...string) *exec.Cmd {
	return exec.Command(program, arguments...)
}

func lockFile(*os.File) (bool, error) { return false, errors.ErrUnsupported }

const (
	fastShutdown      = syscall.SIGINT
	immediateShutdown = syscall.SIGQUIT
)
