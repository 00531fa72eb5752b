package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"breakwright/internal/localpg"
)

func inspectPostgres(_ context.Context, c Config) (string, error) {
	if c.Database != "" {
		return "DATABASE_URL is set, so none is needed here", nil
	}
	dir, err := localpg.FindBinaries()
	if err != nil {
		return "", err
	}
	return dir, nil
}

func inspectDataFolder(_ context.Context, c Config) (string, error) {
	if c.Database != "" {
		return "none is used: everything is in the database", nil
	}
	dir, err := dataFolder(c.Data)
	if err != nil {
		return "", err
	}
	if err := localpg.CheckReachable(filepath.Join(dir, postgresFolder)); err != nil {
		return "", fmt.Errorf("%s: %w", dir, err)
	}
	_, err = os.Stat(dir)
	if errors.Is(err, os.ErrNotExist) {
		return dir + ", which is not there yet: the first start makes it", nil
	}
	return dir, err
}

func inspectAddress(ctx context.Context, c Config) (string, error) {
	if answer, err := fetchHealth(ctx, c.Listen); err == nil && answer == "ok" {
		return "a healthy server answers on " + c.Listen, nil
	}
	l, err := openListener(c.Listen)
	if err != nil {
		return "", err
	}
	return c.Listen + " is free; no server runs there now", l.Close()
}

// earliestClock is when this file was: no clock may be before it.
var earliestClock = time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)

func inspectClock(context.Context, Config) (string, error) {
	now := time.Now()
	if now.Before(earliestClock) {
		return "", fmt.Errorf("it is %s here, which cannot be: set the machine's clock", now.Format(time.DateTime))
	}
	return now.UTC().Format(time.DateTime) + " UTC", nil
}

// scarceBytes is how many bytes of disk are too few: a club's whole year is well
// under this.
const scarceBytes = 500 << 20

func inspectDisk(_ context.Context, c Config) (string, error) {
	if c.Database != "" {
		return "the database's, which cannot be seen from here", nil
	}
	dir, err := dataFolder(c.Data)
	if err != nil {
		return "", err
	}
	free, err := freeBytes(nearestFolder(dir))
	switch {
	case err != nil:
		return "", err
	case free < scarceBytes:
		return "", fmt.Errorf("only %d MB are free for %s: make room, or move it with --data DIR", free>>20, dir)
	}
	return fmt.Sprintf("%d MB are free for %s", free>>20, dir), nil
}

// nearestFolder is the folder itself or the nearest above it that is there.
func nearestFolder(dir string) string {
	for {
		if info, err := os.Stat(dir); err == nil && info.IsDir() || dir == filepath.Dir(dir) {
			return dir
		}
		dir = filepath.Dir(dir)
	}
}
