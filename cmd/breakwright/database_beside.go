package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"log/slog"
	"os"
	"path/filepath"

	"breakwright/internal/localpg"
)

// openForCommand opens the database that a command works on, the club's or the demo's,
// beside a running server or not; what it waits for is told on stderr.
func openForCommand(ctx context.Context, config Config, inDemo bool, stderr io.Writer) (*openedDatabase, error) {
	name := clubDatabase
	if inDemo {
		name = demoDatabase
	}
	return openDatabaseBeside(ctx, config, name, slog.New(slog.DiscardHandler), printSentences(stderr))
}

// openExisting is openForCommand for a command about what is there: in a folder without
// a database there is nothing, so none is made there.
func openExisting(ctx context.Context, config Config, inDemo bool, stderr io.Writer) (*openedDatabase, error) {
	if config.Database == "" {
		data, err := dataFolder(config.Data)
		if err != nil {
			return nil, err
		}
		if _, err := os.Stat(filepath.Join(data, postgresFolder)); errors.Is(err, fs.ErrNotExist) {
			return nil, fmt.Errorf("there is no database in %s. Another folder is named with --data DIR, a PostgreSQL of your own with DATABASE_URL", data)
		}
	}
	return openForCommand(ctx, config, inDemo, stderr)
}

// otherServed is what a server serves that has no database of a name.
var otherServed = map[string]string{
	clubDatabase: "the demo; commands that take --demo look into that",
	demoDatabase: "a club, and no demo",
}

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
		return nil, fmt.Errorf("the server that runs on %s has no database %q: it is only starting, or serves %s", data, name, otherServed[name])
	}
	return &openedDatabase{dsn: running.DSN(databaseOwner, name), data: data}, nil
}
