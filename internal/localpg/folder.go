package localpg

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// What a cluster's folder holds. The socket lies there too when the path is
// short enough.
const (
	dataFolder    = "data"
	newDataFolder = "data.new" // initdb at work, or cut short
	lockName      = "lock"
	logName       = "log"
)

// ErrRunning says that a server already runs on the folder.
var ErrRunning = errors.New("already running")

// serverFolder is a cluster's folder while we hold its lock.
type serverFolder struct {
	path  string
	owner osAccount
	lock  *os.File
}

// claimFolder makes the folder when it is missing, gives it to the account and takes
// its lock. A folder that holds anything we did not make is refused.
func claimFolder(path string, who osAccount) (_ *serverFolder, err error) {
	if err := makeFolder(path, who); err != nil {
		return nil, err
	}
	lock, err := os.OpenFile(filepath.Join(path, lockName), os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return nil, err
	}
	taken, err := lockFile(lock)
	if err == nil && !taken {
		err = fmt.Errorf("PostgreSQL in %s is %w, started by process %s: stop that one first, or choose another folder", path, ErrRunning, readLockHolder(path))
	}
	if err == nil {
		err = errors.Join(who.chownPath(lock.Name()), lock.Truncate(0))
	}
	if err == nil {
		_, err = fmt.Fprintln(lock, os.Getpid())
	}
	if err != nil {
		lock.Close()
		return nil, err
	}
	return &serverFolder{path: path, owner: who, lock: lock}, nil
}

func (f *serverFolder) releaseLock() { f.lock.Close() }

func (f *serverFolder) pathOf(name string) string { return filepath.Join(f.path, name) }

func makeFolder(path string, who osAccount) error {
	entries, err := os.ReadDir(path)
	if errors.Is(err, fs.ErrNotExist) {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.Mkdir(path, 0o700); err != nil && !errors.Is(err, fs.ErrExist) {
			return err
		}
	} else if err != nil {
		return err
	}
	if !isOurFolder(entries) {
		return fmt.Errorf("%s holds other files: choose an empty or new folder for PostgreSQL", path)
	}
	return errors.Join(who.chownPath(path), os.Chmod(path, 0o700))
}

// isOurFolder reports whether a folder is empty or has our marks.
func isOurFolder(entries []fs.DirEntry) bool {
	for _, entry := range entries {
		if entry.Name() == lockName || entry.Name() == dataFolder {
			return true
		}
	}
	return len(entries) == 0
}

func readLockHolder(path string) string {
	text, err := os.ReadFile(filepath.Join(path, lockName))
	if number := strings.TrimSpace(string(text)); err == nil && number != "" {
		return number
	}
	return "unknown"
}

// IsInUse reports whether a process holds the cluster in dir. A folder without a
// lock is in nobody's use; one whose lock cannot be tried counts as used.
func IsInUse(dir string) bool {
	lock, err := os.OpenFile(filepath.Join(dir, lockName), os.O_RDWR, 0)
	if errors.Is(err, fs.ErrNotExist) {
		return false
	}
	if err != nil {
		return true
	}
	defer lock.Close()
	taken, err := lockFile(lock)
	return err != nil || !taken
}
