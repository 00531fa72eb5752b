package main

import (
	"context"
	"strings"
)

// journeys is the package that drives the whole program with a browser.
const journeys = "/web/journey"

func runTests(ctx context.Context, tree *tree) error {
	if !tree.quick {
		return tree.show(ctx, nil, "go", "test", "-race", "-shuffle=on", "-timeout=12m", "./...")
	}
	listed, err := tree.ask(ctx, "go", "list", "./...")
	if err != nil {
		return err
	}
	arguments := []string{"test", "-shuffle=on"}
	for name := range strings.FieldsSeq(listed) {
		if !strings.HasSuffix(name, journeys) {
			arguments = append(arguments, name)
		}
	}
	return tree.show(ctx, nil, "go", arguments...)
}
