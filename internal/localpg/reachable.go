package localpg

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// checkReachable checks that the account can enter the folder, by entering it: modes,
// access lists and mounts all have their say that way.
func (f *serverFolder) checkReachable(binaries string) error {
	postgres := filepath.Join(binaries, "postgres")
	out, err := f.owner.newCommand(f.path, postgres, "--version").CombinedOutput()
	switch {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrPermission):
		return f.owner.cannotEnterError(f.path)
	default:
		return fmt.Errorf("run %s in %s: %w\n%s", postgres, f.path, err, out)
	}
}

func (a osAccount) cannotEnterError(dir string) error {
	if !a.dropsRoot {
		return fmt.Errorf("the user %s cannot enter %s%s: choose another folder", a.name, dir, closedParent(dir))
	}
	return fmt.Errorf("PostgreSQL refuses to run as root, so it runs as the user %s, who cannot enter %s%s: choose a folder such as /var/lib/breakwright, or run this as an ordinary user",
		a.name, dir, closedParent(dir))
}

// closedParent names the topmost folder above path that is shut to others,
// which is nearly always the reason; empty when none is.
func closedParent(path string) string {
	var closed string
	for dir := filepath.Dir(path); dir != filepath.Dir(dir); dir = filepath.Dir(dir) {
		if info, err := os.Stat(dir); err == nil && info.Mode().Perm()&0o001 == 0 {
			closed = " (" + dir + " is closed to other users)"
		}
	}
	return closed
}

// CheckReachable reports whether PostgreSQL's user could enter a folder at dir, which
// need not exist yet; the error says why not. For choosing among folders
// before one is made.
func CheckReachable(dir string) error {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return err
	}
	who, err := chooseAccount(dir)
	if err != nil {
		return err
	}
	near := dir
	for !isFolder(near) && near != filepath.Dir(near) {
		near = filepath.Dir(near)
	}
	err = who.newCommand(near, "/bin/sh", "-c", ":").Run()
	if errors.Is(err, fs.ErrPermission) {
		return who.cannotEnterError(dir)
	}
	return err
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}
