package main

import (
	"context"
	"fmt"
	"log/slog"
	"path/filepath"

	"breakwright/internal/localpg"
)

// openDatabaseBeside is openDatabase for a command that may run while a server
// does: it uses the private PostgreSQL that is running, where one is.
func openDatabaseBeside(ctx context.Context, config Config, name string, log *slog.Logger, say func(string)) (*openedDatabase, error) {
	if config.Database != "" {
		return useGivenDatabase(config, log)
	}
	data, err := dataFolder(config.Data)
	if err != nil {
		return nil, err
	}
	running, ok := localpg.FindRunning(ctx, filepath.Join(data, postgresFolder))
	if !ok {
		return openDatabase(ctx, config, name, log, say)
	}
	has, err := running.HasDatabase(ctx, name)
	if err != nil {
		return nil, err
	}
	if !has {
		return nil, fmt.Errorf("the server that runs on %s has no database %q: it serves the demo, or a club. --demo chooses the demo's", data, name)
	}
	return &openedDatabase{dsn: running.DSN(databaseOwner, name), data: data}, nil
}
