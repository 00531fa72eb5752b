package main

import "context"

// arithmetic lists the packages that only compute: they start no goroutine and
// hold no lock, so the race detector has nothing to find in them, and their
// inner loops would run ten times slower under it. They are compiled without
// it; who calls them is watched as ever.
var arithmetic = []string{
	"breaksim", "drill", "evidence", "fit", "leave", "rack", "response", "table",
}

// runTests runs every test. Quick leaves out the files marked "!quick", which
// are those that open a browser, and the race detector.
func runTests(ctx context.Context, tree *sourceTree) error {
	if tree.quick {
		// Without -shuffle, so that what has not changed is not run again.
		return tree.runShowing(ctx, nil, "go", "test", "-tags=quick", "./...")
	}
	args := []string{"test", "-race", "-shuffle=on", "-timeout=12m"}
	for _, name := range arithmetic {
		args = append(args, "-gcflags=breakwright/internal/"+name+"=-race=false")
	}
	return tree.runShowing(ctx, nil, "go", append(args, "./...")...)
}
