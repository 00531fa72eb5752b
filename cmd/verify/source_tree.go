package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// sourceTree is the source tree under check.
type sourceTree struct {
	root   string // absolute
	quick  bool
	faults int // that a soak makes
	seed   int // of its random numbers
	out    io.Writer
}

// findRoot climbs from a folder to the one with go.mod.
func findRoot(from string) (string, error) {
	dir, err := filepath.Abs(from)
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir, nil
		}
		if dir == filepath.Dir(dir) {
			return "", errors.New("no go.mod here or above: run this inside the source tree")
		}
		dir = filepath.Dir(dir)
	}
}

func (t *sourceTree) printLine(format string, arguments ...any) {
	fmt.Fprintf(t.out, format+"\n", arguments...)
}

// newCommand is a program that runs at the root with our environment and these
// additions to it.
func (t *sourceTree) newCommand(ctx context.Context, additions []string, name string, arguments ...string) *exec.Cmd {
	command := exec.CommandContext(ctx, name, arguments...)
	command.Dir = t.root
	command.Env = append(os.Environ(), additions...)
	return command
}

// runShowing runs a program and passes on what it prints as it prints it.
func (t *sourceTree) runShowing(ctx context.Context, additions []string, name string, arguments ...string) error {
	command := t.newCommand(ctx, additions, name, arguments...)
	command.Stdout, command.Stderr = t.out, t.out
	if err := command.Run(); err != nil {
		return fmt.Errorf("%s %s: %w", name, strings.Join(arguments, " "), err)
	}
	return nil
}

// captureOutput runs a program and returns what it prints; what it complains of goes to
// the error.
func (t *sourceTree) captureOutput(ctx context.Context, name string, arguments ...string) (string, error) {
	command := t.newCommand(ctx, nil, name, arguments...)
	var complaint bytes.Buffer
	command.Stderr = &complaint
	out, err := command.Output()
	if err != nil {
		return "", fmt.Errorf("%s %s: %w\n%s", name, strings.Join(arguments, " "), err, &complaint)
	}
	return string(out), nil
}

// runTool runs one of the build tools that internal/tools pins. They are built
// without cgo, which takes half the time for sqlc.
func (t *sourceTree) runTool(ctx context.Context, name string, arguments ...string) error {
	arguments = append([]string{"tool", "-modfile=internal/tools/go.mod", name}, arguments...)
	return t.runShowing(ctx, []string{"CGO_ENABLED=0"}, "go", arguments...)
}

// listFiles lists every regular file, slash-separated from the root, outside
// folders that begin with a dot or hold npm's packages.
func (t *sourceTree) listFiles() ([]string, error) {
	var names []string
	err := fs.WalkDir(os.DirFS(t.root), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && name != "." && (strings.HasPrefix(entry.Name(), ".") || entry.Name() == "node_modules") {
			return fs.SkipDir
		}
		if entry.Type().IsRegular() {
			names = append(names, name)
		}
		return nil
	})
	return names, err
}
