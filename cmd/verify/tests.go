package main

import (
	"context"
	"errors"
	"slices"
	"strings"
)

// longestTests are the packages whose tests take longest. They are started
// first, so that none of them is left running alone at the end.
var longestTests = []string{
	"web", "web/record", "web/progress", "cmd/breakwright", "web/journey", "internal/store", "internal/demo", "web/report", "web/roster",
}

// packagesAtOnce is how many packages' tests run side by side: one more than the
// two cores of the machine that counts, because a test often waits for its
// database or its browser.
const packagesAtOnce = "3"

// arithmetic lists the packages that only compute: they start no goroutine, hold
// no lock and assign to no variable of the package but what package memo keeps for
// them, so the race detector has nothing to find in them, and their inner loops would
// run ten times slower under it. They are compiled without it, and their own tests run
// without it; who calls them is watched as ever.
var arithmetic = []string{
	"internal/advice", "internal/breaklog", "internal/breaksim", "internal/drill", "internal/evidence", "internal/fit",
	"internal/leave", "internal/rack", "internal/rackplan", "internal/response", "internal/say", "internal/table", "internal/vector", "web/picture",
}

// arithmeticOfOthers are packages of others that only compute for whoever calls them. None
// of them may use what other goroutines are let in by, but for tables that it makes once for
// itself: their copies of generic code, compiled without the detector, stand in for
// everybody's, and it would see races that are none.
var arithmeticOfOthers = []string{"gonum.org/v1/gonum/...", "compress/flate", "golang.org/x/net/html/...", "github.com/andybalholm/cascadia"}

// testedTwice lists the packages with tests that only compute beside others of what
// several goroutines share. Files of theirs marked "!race" are tested without the race
// detector, under which they would run ten times slower; the others with it too.
var testedTwice = []string{"internal/rehearsal"}

// runTests runs every test. Quick leaves out the race detector and the files marked
// "!quick": those that open a browser, start and stop servers of their own, make a
// whole club, send hostile values into every field, or compute for seconds. With -short,
// properties are drawn a fifth as often.
func runTests(ctx context.Context, tree *sourceTree) error {
	if tree.quick {
		// Without -shuffle, so that what has not changed is not run again.
		return tree.runShowing(ctx, nil, "go", "test", "-vet=off", "-short", "-tags=quick", "-ldflags=-w", "-p="+packagesAtOnce, "./...")
	}
	watched, err := tree.listWatched(ctx)
	if err != nil {
		return err
	}
	alone := []string{"test", "-shuffle=on", "-timeout=12m", "-vet=off", "-ldflags=-w"}
	for _, path := range slices.Concat(arithmetic, testedTwice) {
		alone = append(alone, "./"+path)
	}
	return errors.Join(
		tree.runShowing(ctx, nil, "go", alone...),
		tree.runShowing(ctx, nil, "go", append(watchingArguments(), watched...)...),
	)
}

// watchingArguments are those of a run with the race detector, but for the packages.
// The step before has vetted all; nobody opens these programs in a debugger (-w).
func watchingArguments() []string {
	args := []string{"test", "-race", "-shuffle=on", "-timeout=12m", "-vet=off", "-ldflags=-w", "-p=" + packagesAtOnce}
	for _, path := range arithmetic {
		args = append(args, "-gcflags=breakwright/"+path+"=-race=false")
	}
	for _, pattern := range arithmeticOfOthers {
		args = append(args, "-gcflags="+pattern+"=-race=false")
	}
	return args
}

// listWatched lists the packages whose tests run with the race detector, those first
// that take longest.
func (t *sourceTree) listWatched(ctx context.Context) ([]string, error) {
	all, err := t.captureOutput(ctx, "go", "list", "./...")
	if err != nil {
		return nil, err
	}
	var packages []string
	for _, path := range longestTests {
		packages = append(packages, "./"+path)
	}
	for path := range strings.FieldsSeq(all) {
		path = strings.TrimPrefix(path, "breakwright/")
		if !slices.Contains(arithmetic, path) && !slices.Contains(longestTests, path) {
			packages = append(packages, "./"+path)
		}
	}
	return packages, nil
}
