package localpg

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
)

// initdbLocale orders text by code point and knows every letter's upper case. Older
// macOS has no C.UTF-8 (from memory), so there it is the one every Mac has.
var initdbLocale = func() string {
	if runtime.GOOS == "darwin" {
		return "en_US.UTF-8"
	}
	return "C.UTF-8"
}()

// initialiseData makes the data folder unless there is one. It works beside it and
// renames at the end, so a data folder is always a whole one.
func (f *serverFolder) initialiseData(ctx context.Context, binaries string, config Config) (made bool, err error) {
	data := f.pathOf(dataFolder)
	if _, err := os.Stat(data); !errors.Is(err, fs.ErrNotExist) {
		return false, err
	}
	fresh := f.pathOf(newDataFolder)
	if err := os.RemoveAll(fresh); err != nil {
		return false, err
	}
	if config.CopyOf != "" {
		err = f.copyData(config.CopyOf, fresh)
	} else {
		err = f.runInitdb(ctx, binaries, fresh, config.Durable)
	}
	if err != nil {
		return false, fmt.Errorf("make a PostgreSQL data folder in %s: %w", f.path, err)
	}
	return true, os.Rename(fresh, data)
}

func (f *serverFolder) runInitdb(ctx context.Context, binaries, fresh string, durable bool) error {
	arguments := []string{"-D", fresh, "-U", superuser,
		"--auth-local=trust", "--auth-host=reject", "--encoding=UTF8", "--locale=" + initdbLocale, "--no-instructions"}
	if !durable {
		arguments = append(arguments, "--no-sync")
	}
	out, err := runUntil(ctx, f.owner.newCommand(f.path, filepath.Join(binaries, "initdb"), arguments...))
	if err != nil {
		return fmt.Errorf("%w\n%s", err, lastLines(string(out), 15))
	}
	return nil
}

// copyData copies a data folder for the account, which alone may enter it.
func (f *serverFolder) copyData(from, fresh string) error {
	if err := os.CopyFS(fresh, os.DirFS(from)); err != nil {
		return err
	}
	if err := os.Chmod(fresh, 0o700); err != nil {
		return err
	}
	return filepath.WalkDir(fresh, func(path string, _ fs.DirEntry, err error) error {
		return errors.Join(err, f.owner.chownPath(path))
	})
}

// binariesFor picks the server programs for a folder: the version that made
// its data, or the best there is for a new one.
func (p searchPlaces) binariesFor(ctx context.Context, dir string) (string, error) {
	best, err := p.findFirst()
	if err != nil {
		return "", err
	}
	text, err := os.ReadFile(filepath.Join(dir, dataFolder, "PG_VERSION"))
	if errors.Is(err, fs.ErrNotExist) {
		return best, nil
	}
	if err != nil {
		return "", err
	}
	want := strings.TrimSpace(string(text))
	var have []string
	for _, candidate := range p.listServerFolders() {
		major, err := queryMajor(ctx, candidate)
		if err != nil {
			return "", err
		}
		if major == want {
			return candidate, nil
		}
		have = append(have, major)
	}
	return "", fmt.Errorf("the data in %s was made by PostgreSQL %s, and this machine has %s: install PostgreSQL %s again to use it, or start with a new folder",
		dir, want, strings.Join(have, ", "), want)
}

// runUntil runs a command to its end, or kills it when the context ends first.
func runUntil(ctx context.Context, command *exec.Cmd) (output []byte, err error) {
	var text bytes.Buffer
	command.Stdout, command.Stderr = &text, &text
	if err := command.Start(); err != nil {
		return nil, err
	}
	stop := context.AfterFunc(ctx, func() { command.Process.Kill() })
	defer stop()
	err = command.Wait()
	if ctx.Err() != nil {
		err = ctx.Err()
	}
	return text.Bytes(), err
}
