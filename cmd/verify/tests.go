package main

import "context"

// runTests runs every test. Quick leaves out the files marked "!quick", which
// are those that open a browser, and the race detector.
func runTests(ctx context.Context, tree *sourceTree) error {
	if tree.quick {
		// Without -shuffle, so that what has not changed is not run again.
		return tree.runShowing(ctx, nil, "go", "test", "-tags=quick", "./...")
	}
	return tree.runShowing(ctx, nil, "go", "test", "-race", "-shuffle=on", "-timeout=12m", "./...")
}
