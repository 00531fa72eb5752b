package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"path/filepath"
	"time"

	"breakwright/internal/localpg"
	"breakwright/internal/store"
)

// oldBackup is how old the last backup of a club may be.
const oldBackup = 8 * 24 * time.Hour

// queryOwner asks something of the database as its owner, also beside a running
// server. There is nothing to ask before the first start: asked is false.
func queryOwner[T any](ctx context.Context, c Config, query func(context.Context, string) (T, error)) (answer T, answered bool, err error) {
	ctx, cancel := context.WithTimeout(ctx, databasePatience)
	defer cancel()
	if c.Database == "" {
		if _, over, err := inspectBeforeStart(c); err != nil || over && !isPrivateRunning(ctx, c) {
			return answer, false, err
		}
	}
	d, err := openDatabaseBeside(ctx, c, clubDatabase, slog.New(slog.DiscardHandler), func(string) {})
	if err != nil {
		return answer, false, err
	}
	defer d.Close()
	answer, err = query(ctx, d.dsn)
	return answer, err == nil, err
}

func isPrivateRunning(ctx context.Context, c Config) bool {
	data, err := dataFolder(c.Data)
	if err != nil {
		return false
	}
	_, running := localpg.FindRunning(ctx, filepath.Join(data, postgresFolder))
	return running
}

// inspectBackup says how old the last backup is. A club younger than one may be
// has had no time for its first.
func inspectBackup(ctx context.Context, c Config) (string, error) {
	last, answered, err := queryOwner(ctx, c, store.FindLastBackup)
	switch {
	case errors.Is(err, store.ErrOlderSchema):
		return "not looked for: the tables are older than this program", nil
	case err != nil:
		return "", err
	case !answered:
		return "there is nothing to back up yet", nil
	case last.Clubs == 0:
		return "there is no club to back up yet", nil
	case last.At.IsZero() && time.Since(last.FirstClub) < oldBackup:
		return "none yet; have breakwright backup FILE run every night", nil
	case last.At.IsZero():
		return "", errors.New("no backup was ever made: have breakwright backup FILE run every night, and keep the file on another machine")
	case time.Since(last.At) > oldBackup:
		return "", fmt.Errorf("the last one was made on %s: have breakwright backup FILE run every night", last.At.Format(time.DateOnly))
	}
	return fmt.Sprintf("the last one was made on %s, %d KB", last.At.UTC().Format("2006-01-02 15:04 UTC"), last.Bytes>>10), nil
}

// most a clock may differ from the database's: due days and codes go by both.
const mostClockDifference = 10 * time.Second

// connectionsToSpare are those that live boards, migrations and backups take
// beside the pool.
const connectionsToSpare = 3

// inspectDatabaseLimits compares clocks, and the connections that PostgreSQL
// allows with those that the program may ask for.
func inspectDatabaseLimits(ctx context.Context, c Config) (string, error) {
	limits, answered, err := queryOwner(ctx, c, store.FindServerLimits)
	switch {
	case err != nil:
		return "", err
	case !answered:
		return "no database to ask yet", nil
	case limits.ClockAhead.Abs() > mostClockDifference:
		return "", fmt.Errorf("its clock differs from this machine's by %s: let both follow a time server", limits.ClockAhead.Round(time.Second))
	case int(c.connections())+connectionsToSpare > limits.Connections:
		return "", fmt.Errorf("PostgreSQL allows %d connections, and this server may ask for %d: lower BREAKWRIGHT_CONNECTIONS or raise max_connections", limits.Connections, int(c.connections())+connectionsToSpare)
	}
	return fmt.Sprintf("%d connections are allowed, this server takes %d at most; the clocks agree", limits.Connections, int(c.connections())+connectionsToSpare), nil
}
