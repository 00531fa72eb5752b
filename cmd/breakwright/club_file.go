package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"

	"breakwright/internal/say"
	"breakwright/internal/store"
)

const exportUsage = `export [--data DIR] [--demo] [--club NAME] FILE

Writes all that one club recorded into FILE, as it was at one moment: people and
classes, drills, assignments, sets, breaks, advice, changes and decisions, notes,
questions. No passphrase, PIN or join code is in it. It also works while "serve"
runs. Until it is whole the file is called FILE.part.
`

const importUsage = `import [--data DIR] [--demo] FILE

Brings a club back from a file that "export", or the page of the club, wrote, beside
the clubs that are there and also while "serve" runs. All comes in or nothing. A
coach then signs in with a new passphrase (breakwright coach LOGIN), a student with a
new code from their page.
`

// runExport is the command of that name.
func runExport(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) int {
	flags := newFlags(exportUsage, stderr)
	club := flags.String("club", "", "name of the club, where there are several")
	config, inDemo, name, code, ok := readFileCommand(flags, args, stderr)
	if !ok {
		return code
	}
	written, err := exportClub(ctx, config, inDemo, *club, name, stderr)
	if err != nil {
		return reportFailure(stderr, err)
	}
	fmt.Fprintf(stdout, "%s holds %s\n", name, clubFileWords(written))
	return exitOK
}

func clubFileWords(c store.ClubFile) string {
	return fmt.Sprintf("%q: %s with %s, %s in all.", c.Name, say.Count(int(c.RowsOf("break_set")), "set", "sets"),
		say.Count(int(c.RowsOf("break")), "break", "breaks"), say.Count(int(c.Rows()), "row", "rows"))
}

func exportClub(ctx context.Context, config Config, inDemo bool, club, name string, stderr io.Writer) (written store.ClubFile, err error) {
	d, err := openExisting(ctx, config, inDemo, stderr)
	if err != nil {
		return written, err
	}
	defer d.Close()
	_, err = writeFileWhole(name, func(file io.Writer) error {
		written, err = store.ExportClub(ctx, d.dsn, club, file)
		return err
	}, func(file io.ReaderAt, size int64) error {
		_, err := store.ReadClubFile(file, size)
		return err
	})
	return written, err
}

// runImport is the command of that name.
func runImport(ctx context.Context, args []string, _ io.Reader, stdout, stderr io.Writer) int {
	config, inDemo, name, code, ok := readFileCommand(newFlags(importUsage, stderr), args, stderr)
	if !ok {
		return code
	}
	brought, err := importClub(ctx, config, inDemo, name, stderr)
	if err != nil {
		return reportFailure(stderr, err)
	}
	fmt.Fprintf(stdout, "Here is %s\nNext: breakwright coach LOGIN.\n", clubFileWords(brought))
	return exitOK
}

func importClub(ctx context.Context, config Config, inDemo bool, name string, stderr io.Writer) (brought store.ClubFile, err error) {
	file, err := os.Open(name)
	if err != nil {
		return brought, err
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return brought, err
	}
	if _, err := store.ReadClubFile(file, info.Size()); err != nil { // before a database is looked for
		return brought, err
	}
	d, err := openForCommand(ctx, config, inDemo, stderr)
	if err != nil {
		return brought, err
	}
	defer d.Close()
	if err := d.migrateSchema(ctx, slog.New(slog.DiscardHandler)); err != nil {
		return brought, err
	}
	return store.ImportClub(ctx, d.dsn, file, info.Size())
}

// writeFileWhole writes beside the file of that name and puts it in its place once it
// is on the disk and reads back whole, so that an older one is never lost to half a
// new one. It returns the size.
func writeFileWhole(name string, write func(io.Writer) error, read func(io.ReaderAt, int64) error) (size int64, err error) {
	part := name + ".part"
	file, err := os.OpenFile(part, os.O_RDWR|os.O_CREATE|os.O_TRUNC, 0o600)
	if err != nil {
		return 0, err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(part))
		}
	}()
	defer file.Close() // a second time when all went well, which is no matter
	if err = write(file); err != nil {
		return 0, err
	}
	if err = file.Sync(); err != nil {
		return 0, err
	}
	if size, err = file.Seek(0, io.SeekEnd); err != nil {
		return 0, err
	}
	if err = read(file, size); err != nil {
		return 0, err
	}
	if err = file.Close(); err != nil {
		return 0, err
	}
	return size, os.Rename(part, name)
}
