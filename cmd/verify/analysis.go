package main

import (
	"context"
	"errors"
)

func checkTidy(ctx context.Context, tree *sourceTree) error {
	return tree.runShowing(ctx, nil, "go", "mod", "tidy", "-diff")
}

func checkVet(ctx context.Context, tree *sourceTree) error {
	return tree.runShowing(ctx, nil, "go", "vet", "./...")
}

func checkStaticcheck(ctx context.Context, tree *sourceTree) error {
	return tree.runTool(ctx, "staticcheck", "./...")
}

// checkPortable compiles, and throws away, everything for the other systems
// that clubs and developers have. Only compiling is checked: nothing runs.
func checkPortable(ctx context.Context, tree *sourceTree) error {
	var problems error
	for _, system := range []string{"darwin", "windows"} {
		problems = errors.Join(problems, tree.runShowing(ctx, []string{"GOOS=" + system, "CGO_ENABLED=0"}, "go", "build", "-buildvcs=false", "./..."))
	}
	return problems
}
