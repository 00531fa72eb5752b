package main

import (
	"context"
	"strings"
)

// journeyPath is the package that drives the whole program with a browser.
const journeyPath = "/web/journey"

func runTests(ctx context.Context, tree *sourceTree) error {
	if !tree.quick {
		return tree.runShowing(ctx, nil, "go", "test", "-race", "-shuffle=on", "-timeout=12m", "./...")
	}
	listed, err := tree.captureOutput(ctx, "go", "list", "./...")
	if err != nil {
		return err
	}
	arguments := []string{"test", "-shuffle=on"}
	for name := range strings.FieldsSeq(listed) {
		if !strings.HasSuffix(name, journeyPath) {
			arguments = append(arguments, name)
		}
	}
	return tree.runShowing(ctx, nil, "go", arguments...)
}
