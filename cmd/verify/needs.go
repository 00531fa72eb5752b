package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strings"

	"breakwright/internal/cluster"
)

// need is a program that the tests call: any of these names will do.
type need struct {
	what     string
	names    []string
	packages []string // Debian's
}

var needs = []need{
	{"a browser", []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable"}, []string{"chromium"}},
	{"a C compiler, for the race detector", []string{"gcc", "clang", "cc"}, []string{"gcc", "libc6-dev"}},
}

func installNeeds(ctx context.Context, tree *tree) error {
	problem := cluster.Obtain(ctx, func(line string) { tree.say("%s", line) })
	if tree.quick {
		return problem // neither browser nor race detector
	}
	if missing := missingPackages(needs, exec.LookPath); len(missing) > 0 {
		problem = errors.Join(problem, tree.install(ctx, missing))
	}
	return problem
}

// missingPackages gives what to install for the needs that no program fills.
func missingPackages(needs []need, look func(string) (string, error)) []string {
	var packages []string
	for _, need := range needs {
		found := false
		for _, name := range need.names {
			if _, err := look(name); err == nil {
				found = true
			}
		}
		if !found {
			packages = append(packages, need.packages...)
		}
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
