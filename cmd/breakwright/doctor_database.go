package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"time"

	"breakwright/internal/localpg"
	"breakwright/internal/store"
)

// databasePatience is for a server that does not answer at all.
const databasePatience = 30 * time.Second

// inspectDatabase opens the store as the program does: the store refuses a
// schema that is not its own and a role that could step over the walls.
func inspectDatabase(ctx context.Context, c Config) (string, error) {
	ctx, cancel := context.WithTimeout(ctx, databasePatience)
	defer cancel()
	if c.Database == "" {
		report, over, err := inspectBeforeStart(c)
		if over || err != nil {
			return report, err
		}
	}
	d, err := openDatabase(ctx, c, clubDatabase, slog.New(slog.DiscardHandler), func(string) {})
	if err != nil {
		return "", err
	}
	defer d.Close()
	s, err := d.openStore(ctx)
	if errors.Is(err, store.ErrOlderSchema) || errors.Is(err, store.ErrPassword) {
		return "", fmt.Errorf("%w. Run breakwright migrate: it brings the tables up to date and gives the role %s its password", err, store.AppRole)
	}
	if err != nil {
		return "", err
	}
	defer s.Close()
	has, err := s.HasClub(ctx)
	if err != nil {
		return "", err
	}
	report := fmt.Sprintf("it answers, its tables are of version %d as this program needs, and the role %s is held to the walls", store.SchemaVersion(), store.AppRole)
	if !has {
		report += "; there is no club in it yet"
	}
	return report, nil
}

// inspectBeforeStart reports what can be known of a private PostgreSQL without
// starting it: over says that no more can be.
func inspectBeforeStart(c Config) (report string, over bool, err error) {
	data, err := dataFolder(c.Data)
	if err != nil {
		return "", false, err
	}
	dir := filepath.Join(data, postgresFolder)
	if _, err := os.Stat(dir); errors.Is(err, os.ErrNotExist) {
		return "there is none yet: the first start makes it", true, nil
	}
	if localpg.IsInUse(dir) {
		return "a running server has it, so it was not looked into", true, nil
	}
	return "", false, nil
}
