package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"

	"breakwright/internal/store"
)

const backupUsage = `backup [--data DIR] [--demo] FILE

Writes everything that the database holds into FILE, as it was at one moment. It
also works while "serve" runs. Until it is whole the file is called FILE.part.
It holds people's names: keep it as you keep the club's papers.
`

// runBackup is the command of that name.
func runBackup(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) int {
	config, inDemo, name, code, ok := readFileCommand(newFlags(backupUsage, stderr), args, stderr)
	if !ok {
		return code
	}
	m, size, err := backUp(ctx, config, inDemo, name, stderr)
	if err != nil {
		return reportFailure(stderr, err)
	}
	fmt.Fprintf(stdout, "%s holds %d rows of %d tables, %d bytes. Try it once: breakwright restore, into an empty database.\n", name, m.Rows(), len(m.Tables), size)
	return exitOK
}

// readFileCommand reads the command line of a command that takes one file, and flags
// of its own.
func readFileCommand(flags *flag.FlagSet, args []string, stderr io.Writer) (config Config, inDemo bool, name string, code int, ok bool) {
	read := configFlags(flags, "data")
	demo := flags.Bool("demo", false, "the database of the demo")
	files, err := parseMixed(flags, args)
	if err != nil {
		return config, false, "", flagExitCode(err), false
	}
	if len(files) != 1 {
		flags.Usage()
		return config, false, "", exitUsage, false
	}
	if config, err = read(); err != nil {
		return config, false, "", reportFailure(stderr, err), false
	}
	return config, *demo, files[0], exitOK, true
}

func backUp(ctx context.Context, config Config, inDemo bool, name string, stderr io.Writer) (m store.Manifest, size int64, err error) {
	d, err := openExisting(ctx, config, inDemo, stderr)
	if err != nil {
		return m, 0, err
	}
	defer d.Close()
	size, err = writeFileWhole(name, func(file io.Writer) error {
		m, err = store.Backup(ctx, d.dsn, file)
		return err
	}, func(file io.ReaderAt, size int64) error {
		_, err := store.ReadManifest(file, size)
		return err
	})
	if err != nil {
		return m, 0, err
	}
	return m, size, store.NoteBackup(ctx, d.dsn, size)
}

const restoreUsage = `restore [--data DIR] [--demo] FILE

Brings a backup back into an empty database, with "serve" stopped: that of
DATABASE_URL, or the private one of a new data folder. A file that is not whole is
refused before anything is touched. Restart "serve" afterwards.
`

// runRestore is the command of that name.
func runRestore(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) int {
	config, inDemo, name, code, ok := readFileCommand(newFlags(restoreUsage, stderr), args, stderr)
	if !ok {
		return code
	}
	m, err := bringBack(ctx, config, inDemo, name, stderr)
	if err != nil {
		return reportFailure(stderr, err)
	}
	fmt.Fprintf(stdout, "%d rows of %d tables are back, as they were on %s.\n", m.Rows(), len(m.Tables), m.Made.Format("2006-01-02 at 15:04 UTC"))
	return exitOK
}

func bringBack(ctx context.Context, config Config, inDemo bool, name string, stderr io.Writer) (m store.Manifest, err error) {
	file, err := os.Open(name)
	if err != nil {
		return m, err
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return m, err
	}
	if _, err := store.ReadManifest(file, info.Size()); err != nil {
		return m, err
	}
	d, err := openForCommand(ctx, config, inDemo, stderr)
	if err != nil {
		return m, err
	}
	defer d.Close()
	return store.Restore(ctx, d.dsn, "", file, info.Size())
}
