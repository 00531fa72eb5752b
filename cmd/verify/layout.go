package main

import (
	"context"
	"fmt"
	"os"
	"slices"
	"strings"
)

// topLevel is everything that may stand at the root, and all of it must. Names
// that begin with a dot are free.
var topLevel = []string{
	"cmd", "web", "internal", "sql", "static", "deploy", "testdata",
	"go.mod", "go.sum", "docker-compose.yml", "README.md", "DEVELOPERS.md",
}

// testOutput holds screenshots and the like of the last test run; git ignores it.
const testOutput = "testout"

func checkLayout(_ context.Context, tree *sourceTree) error {
	entries, err := os.ReadDir(tree.root)
	if err != nil {
		return err
	}
	var names []string
	for _, entry := range entries {
		names = append(names, entry.Name())
	}
	extra, missing := compareLayout(names)
	if len(extra)+len(missing) > 0 {
		return fmt.Errorf("too much: [%s], missing: [%s]", strings.Join(extra, " "), strings.Join(missing, " "))
	}
	return nil
}

func compareLayout(names []string) (extra, missing []string) {
	for _, name := range names {
		if !slices.Contains(topLevel, name) && !strings.HasPrefix(name, ".") && name != testOutput {
			extra = append(extra, name)
		}
	}
	for _, name := range topLevel {
		if !slices.Contains(names, name) {
			missing = append(missing, name)
		}
	}
	return extra, missing
}
