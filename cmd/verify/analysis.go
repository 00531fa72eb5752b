package main

import "context"

func checkTidy(ctx context.Context, tree *sourceTree) error {
	return tree.runShowing(ctx, nil, "go", "mod", "tidy", "-diff")
}

func checkVet(ctx context.Context, tree *sourceTree) error {
	return tree.runShowing(ctx, nil, "go", "vet", "./...")
}

func checkStaticcheck(ctx context.Context, tree *sourceTree) error {
	return tree.runTool(ctx, "staticcheck", "./...")
}
