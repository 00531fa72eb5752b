package main

import (
	"context"
	"fmt"
	"strings"
	"time"
)

// verifyStep is one named check. What it prints should let a reader mend what it
// found; its error says in a line what failed.
type verifyStep struct {
	name  string
	about string
	run   func(context.Context, *sourceTree) error
}

// verifySteps is every check, in the order they run: cheap ones first, so that the
// common mistakes show at once.
var verifySteps = []verifyStep{
	{"needs", "PostgreSQL, git, a browser and a C compiler are here, or are installed", installRequirements},
	{"layout", "the top level holds what it may and nothing else", checkLayout},
	{"sizes", "files and functions stay small enough to read", checkSizes},
	{"format", "gofmt and templ fmt have nothing to change, imports stand in order", checkFormat},
	{"templ", "the Go code made from templates is current", checkTempl},
	{"sqlc", "the Go code made from queries is current", checkSqlc},
	{"tidy", "go.mod and go.sum say what the code needs", checkTidy},
	{"vet", "go vet", checkVet},
	{"staticcheck", "staticcheck", checkStaticcheck},
	{"reachable", "no function is left that nothing calls", checkReachable},
	{"portable", "all has its names and types on macOS and Windows too", checkPortable},
	{"scripts", "the browser's scripts: types and lint", checkScripts},
	{"test", "every test, with the race detector and the browser", runTests},
}

// notQuick is the step that a quick run leaves out: it reads every program and every
// test program as a whole, and what it finds is never urgent.
const notQuick = "reachable"

// chooseSteps picks the steps with these names, in their own order; no names means
// all.
func chooseSteps(steps []verifyStep, names string) ([]verifyStep, error) {
	if names == "" {
		return steps, nil
	}
	wanted := map[string]bool{}
	for name := range strings.SplitSeq(names, ",") {
		wanted[strings.TrimSpace(name)] = true
	}
	var chosen []verifyStep
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

// stepOutcome is how a step ended.
type stepOutcome struct {
	name string
	took time.Duration
	err  error
}

// runSteps runs the steps one after another, whatever the earlier ones say, and
// sums up. An interrupt ends it.
func runSteps(ctx context.Context, steps []verifyStep, tree *sourceTree) (passed bool) {
	var outcomes []stepOutcome
	for _, step := range steps {
		if ctx.Err() != nil {
			break
		}
		tree.printLine("== %s: %s", step.name, step.about)
		began := time.Now()
		err := step.run(ctx, tree)
		outcomes = append(outcomes, stepOutcome{step.name, time.Since(began), err})
		if err != nil {
			tree.printLine("   FAILED: %v", err)
		}
	}
	return printSummary(outcomes, len(steps), tree)
}

func printSummary(outcomes []stepOutcome, asked int, tree *sourceTree) (passed bool) {
	var total time.Duration
	var failed []stepOutcome
	tree.printLine("\n== summary")
	for _, o := range outcomes {
		mark := "ok"
		if o.err != nil {
			mark = "FAILED"
			failed = append(failed, o)
		}
		total += o.took
		tree.printLine("%-12s %-6s %6.1f s", o.name, mark, o.took.Seconds())
	}
	switch {
	case len(failed) > 0:
		tree.printLine("\n%d of %d steps failed after %.0f s:", len(failed), asked, total.Seconds())
		for _, o := range failed {
			tree.printLine("  %s: %v", o.name, o.err)
		}
	case len(outcomes) < asked:
		tree.printLine("\nInterrupted after %d of %d steps.", len(outcomes), asked)
	default:
		tree.printLine("\nAll %d steps passed in %.0f s.", asked, total.Seconds())
	}
	return len(failed) == 0 && len(outcomes) == asked
}
