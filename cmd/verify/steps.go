package main

import (
	"context"
	"fmt"
	"strings"
	"time"
)

// step is one named check. What it prints should let a reader mend what it
// found; its error says in a line what failed.
type step struct {
	name  string
	about string
	run   func(context.Context, *tree) error
}

// steps is every check, in the order they run: cheap ones first, so that the
// common mistakes show at once.
var steps = []step{
	{"needs", "PostgreSQL, git, a browser and a C compiler are here, or are installed", installNeeds},
	{"layout", "the top level holds what it may and nothing else", checkLayout},
	{"sizes", "files and functions stay small enough to read", checkSizes},
	{"format", "gofmt and templ fmt have nothing to change", checkFormat},
	{"templ", "the Go code made from templates is current", checkTempl},
	{"sqlc", "the Go code made from queries is current", checkSqlc},
	{"tidy", "go.mod and go.sum say what the code needs", checkTidy},
	{"vet", "go vet", checkVet},
	{"staticcheck", "staticcheck", checkStaticcheck},
	{"portable", "all compiles for macOS and Windows too", checkPortable},
	{"test", "every test, with the race detector and the browser", runTests},
}

// choose picks the steps with these names, in their own order; no names means
// all.
func choose(steps []step, names string) ([]step, error) {
	if names == "" {
		return steps, nil
	}
	wanted := map[string]bool{}
	for name := range strings.SplitSeq(names, ",") {
		wanted[strings.TrimSpace(name)] = true
	}
	var chosen []step
	for _, step := range steps {
		if wanted[step.name] {
			chosen = append(chosen, step)
			delete(wanted, step.name)
		}
	}
	for name := range wanted {
		return nil, fmt.Errorf("there is no step %q: -list shows them", name)
	}
	return chosen, nil
}

// outcome is how a step ended.
type outcome struct {
	name string
	took time.Duration
	err  error
}

// runAll runs the steps one after another, whatever the earlier ones say, and
// sums up. An interrupt ends it.
func runAll(ctx context.Context, steps []step, tree *tree) (passed bool) {
	var outcomes []outcome
	for _, step := range steps {
		if ctx.Err() != nil {
			break
		}
		tree.say("== %s: %s", step.name, step.about)
		began := time.Now()
		err := step.run(ctx, tree)
		outcomes = append(outcomes, outcome{step.name, time.Since(began), err})
		if err != nil {
			tree.say("   FAILED: %v", err)
		}
	}
	return sumUp(outcomes, len(steps), tree)
}

func sumUp(outcomes []outcome, asked int, tree *tree) (passed bool) {
	var total time.Duration
	var failed []outcome
	tree.say("\n== summary")
	for _, o := range outcomes {
		mark := "ok"
		if o.err != nil {
			mark = "FAILED"
			failed = append(failed, o)
		}
		total += o.took
		tree.say("%-12s %-6s %6.1f s", o.name, mark, o.took.Seconds())
	}
	switch {
	case len(failed) > 0:
		tree.say("\n%d of %d steps failed after %.0f s:", len(failed), asked, total.Seconds())
		for _, o := range failed {
			tree.say("  %s: %v", o.name, o.err)
		}
	case len(outcomes) < asked:
		tree.say("\nInterrupted after %d of %d steps.", len(outcomes), asked)
	default:
		tree.say("\nAll %d steps passed in %.0f s.", asked, total.Seconds())
	}
	return len(failed) == 0 && len(outcomes) == asked
}
