package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"

	"breakwright/internal/cluster"
)

// need is a program that the tests call: any of these names will do.
type need struct {
	what     string
	names    []string
	packages []string // Debian's
	slow     bool     // only for what -quick leaves out
}

var needs = []need{
	{what: "git", names: []string{"git"}, packages: []string{"git"}},
	{what: "a browser", slow: true,
		names:    []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable"},
		packages: []string{"chromium"}},
	{what: "a C compiler, for the race detector", slow: true,
		names:    []string{"gcc", "clang", "cc"},
		packages: []string{"gcc", "libc6-dev"}},
}

func installNeeds(ctx context.Context, tree *tree) error {
	problem := cluster.Obtain(ctx, func(line string) { tree.say("%s", line) })
	if missing := tree.missing(exec.LookPath); len(missing) > 0 {
		problem = errors.Join(problem, tree.install(ctx, missing))
	}
	return problem
}

// missing gives Debian's packages for the needs that no program fills.
func (t *tree) missing(look func(string) (string, error)) []string {
	found := func(name string) bool {
		_, err := look(name)
		return err == nil
	}
	var packages []string
	for _, need := range needs {
		if need.slow && t.quick || slices.ContainsFunc(need.names, found) {
			continue
		}
		t.say("There is no %s.", strings.TrimPrefix(need.what, "a "))
		packages = append(packages, need.packages...)
	}
	return packages
}

func (t *tree) install(ctx context.Context, packages []string) error {
	if _, err := exec.LookPath("apt-get"); err != nil || os.Geteuid() != 0 {
		return fmt.Errorf("install these, by whatever name your system has for them: %s (Debian: sudo apt-get install -y --no-install-recommends %s)",
			strings.Join(packages, ", "), strings.Join(packages, " "))
	}
	t.say("Installing %s with apt-get.", strings.Join(packages, ", "))
	for _, arguments := range [][]string{
		{"update", "-q"},
		append([]string{"install", "-q", "-y", "--no-install-recommends"}, packages...),
	} {
		out, err := t.command(ctx, []string{"DEBIAN_FRONTEND=noninteractive"}, "apt-get", arguments...).CombinedOutput()
		if err != nil {
			t.say("%s", out)
			return fmt.Errorf("apt-get %s: %w", strings.Join(arguments, " "), err)
		}
	}
	return nil
}
