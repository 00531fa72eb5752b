package main

import (
	"fmt"
	"os"
	"path/filepath"

	"breakwright/internal/localpg"
)

// The data folder when none is named. The second is for root in a folder that
// PostgreSQL's own user may not enter, such as /root.
const (
	usualData = ".breakwright"
	rootData  = "/var/lib/breakwright"
)

// What the data folder holds.
const (
	postgresFolder = "postgres" // the private PostgreSQL, its user's own
	secretFile     = "secret"   // the key of the sign-in cookies
)

// dataFolder picks the data folder, absolute, and makes nothing.
func dataFolder(named string) (string, error) {
	dir := named
	if dir == "" {
		dir = usualData
		if os.Geteuid() == 0 && localpg.CheckReachable(dir) != nil {
			dir = rootData
		}
	}
	absolute, err := filepath.Abs(dir)
	if err != nil {
		return "", fmt.Errorf("find the data folder: %w", err)
	}
	return absolute, nil
}

// makeDataFolder makes the data folder, such that PostgreSQL's user can pass through
// it to their own; what else it holds is shut file by file.
func makeDataFolder(dir string) error {
	if info, err := os.Stat(dir); err == nil && info.IsDir() {
		return nil
	}
	err := os.MkdirAll(dir, 0o755)
	if err == nil {
		err = os.Chmod(dir, 0o755) // whatever the umask is
	}
	if err != nil {
		return fmt.Errorf("make the data folder: %w\nChoose one you may write to with --data DIR", err)
	}
	return nil
}
