package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"

	"breakwright/internal/localpg"
)

// requirement is a program that the tests call: any of these names will do.
type requirement struct {
	purpose  string
	names    []string
	packages []string // Debian's
	slow     bool     // only for what -quick leaves out
}

var requirements = []requirement{
	{purpose: "git", names: []string{"git"}, packages: []string{"git"}},
	{purpose: "Node, for the checks of scripts", names: []string{"npm"}, packages: []string{"nodejs", "npm"}},
	{purpose: "a browser", slow: true,
		names:    []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable"},
		packages: []string{"chromium"}},
	{purpose: "a reader of printed pages", slow: true,
		names:    []string{"pdftotext"},
		packages: []string{"poppler-utils"}},
	{purpose: "a C compiler, for the race detector", slow: true,
		names:    []string{"gcc", "clang", "cc"},
		packages: []string{"gcc", "libc6-dev"}},
}

func installRequirements(ctx context.Context, tree *sourceTree) error {
	problem := localpg.EnsureInstalled(ctx, func(line string) { tree.printLine("%s", line) })
	if missing := tree.missingPackages(exec.LookPath); len(missing) > 0 {
		problem = errors.Join(problem, tree.installPackages(ctx, missing))
	}
	return problem
}

// missingPackages returns Debian's packages for the needs that no program fills.
func (t *sourceTree) missingPackages(look func(string) (string, error)) []string {
	found := func(name string) bool {
		_, err := look(name)
		return err == nil
	}
	var packages []string
	for _, need := range requirements {
		if need.slow && t.quick || slices.ContainsFunc(need.names, found) {
			continue
		}
		t.printLine("There is no %s.", strings.TrimPrefix(need.purpose, "a "))
		packages = append(packages, need.packages...)
	}
	return packages
}

func (t *sourceTree) installPackages(ctx context.Context, packages []string) error {
	if _, err := exec.LookPath("apt-get"); err != nil || os.Geteuid() != 0 {
		return fmt.Errorf("install these, by whatever name your system has for them: %s (Debian: sudo apt-get install -y --no-install-recommends %s)",
			strings.Join(packages, ", "), strings.Join(packages, " "))
	}
	t.printLine("Installing %s with apt-get.", strings.Join(packages, ", "))
	for _, arguments := range [][]string{
		{"update", "-q"},
		append([]string{"install", "-q", "-y", "--no-install-recommends"}, packages...),
	} {
		out, err := t.newCommand(ctx, []string{"DEBIAN_FRONTEND=noninteractive"}, "apt-get", arguments...).CombinedOutput()
		if err != nil {
			t.printLine("%s", out)
			return fmt.Errorf("apt-get %s: %w", strings.Join(arguments, " "), err)
		}
	}
	return nil
}
