package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"

	"breakwright/internal/store"
)

const migrateUsage = `migrate [--data DIR]

Brings the database's tables up to date and ends. "serve" does it too, when it
starts; back up before an upgrade.
`

// runMigrate is the command of that name.
func runMigrate(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) int {
	flags := newFlags(migrateUsage, stderr)
	config, code, ok := readConfig(flags, configFlags(flags, "data"), args, stderr)
	if !ok {
		return code
	}
	d, err := openDatabase(ctx, config, clubDatabase, slog.New(slog.DiscardHandler), printSentences(stderr))
	if err != nil {
		return reportFailure(stderr, err)
	}
	defer d.Close()
	done, err := store.Migrate(ctx, d.dsn, "")
	switch {
	case err != nil:
		return reportFailure(stderr, err)
	case done.From == done.To:
		fmt.Fprintf(stdout, "The tables are up to date: version %d.\n", done.To)
	default:
		fmt.Fprintf(stdout, "The tables were brought from version %d to %d.\n", done.From, done.To)
	}
	return exitOK
}
