package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// reachedByTestsOnly are the functions that no program calls and that stay all
// the same, each with its reason: tests of other packages need them, so that
// they cannot stand in a test file.
var reachedByTestsOnly = map[string]string{
	"internal/account/hasher.go TestCost":    "a quick and weak hash, for every test that signs someone in",
	"internal/store/store.go WithTracer":     "tests count the queries of a page",
	"web/sync/break_json.go WriteBreak":      "tests stand in for the phone, which writes a break in these bytes",
	"internal/response/facts.go Outcomes":    trainReason,
	"internal/response/facts.go Fact.String": trainReason,
}

const trainReason = "the response model is made with it, by internal/response/train"

// checkReachable fails for functions that no program reaches, generated ones
// too, and for those that not even a test does.
func checkReachable(ctx context.Context, tree *sourceTree) error {
	unreached, err := tree.listUnreachable(ctx, "./cmd/...")
	if err != nil {
		return err
	}
	untested, err := tree.listUnreachable(ctx, "-test", "./...")
	if err != nil {
		return err
	}
	return errors.Join(compareUnreachable(unreached, reachedByTestsOnly), compareUnreachable(untested, nil))
}

// compareUnreachable returns what is wrong with a list of unreachable functions
// when these may be: others on it, and those that are missing from it.
func compareUnreachable(unreached []string, allowed map[string]string) error {
	var problems []error
	for _, name := range unreached {
		if allowed[name] == "" {
			problems = append(problems, fmt.Errorf("nothing reaches %s: delete it, or call it", name))
		}
	}
	for _, name := range slices.Sorted(maps.Keys(allowed)) {
		if !slices.Contains(unreached, name) {
			problems = append(problems, fmt.Errorf("%s is excepted and need not be: it is reached, or gone", name))
		}
	}
	return errors.Join(problems...)
}

// listUnreachable returns the functions that these programs do not reach, as
// "file name".
func (t *sourceTree) listUnreachable(ctx context.Context, arguments ...string) ([]string, error) {
	arguments = append([]string{"tool", "-modfile=internal/tools/go.mod", "deadcode", "-generated"}, arguments...)
	// Without -trimpath: with it, two checkouts of the module share the test
	// programs that deadcode reads.
	command := t.newCommand(ctx, []string{"GOFLAGS=-buildvcs=false"}, "go", arguments...)
	var complaint bytes.Buffer
	command.Stderr = &complaint
	out, err := command.Output()
	if err != nil {
		return nil, fmt.Errorf("deadcode: %w\n%s", err, &complaint)
	}
	return parseUnreachable(string(out)), nil
}

// parseUnreachable reads deadcode's lines, "file:line:column: unreachable func: name".
func parseUnreachable(out string) []string {
	var names []string
	for line := range strings.Lines(out) {
		position, name, ok := strings.Cut(strings.TrimSpace(line), ": unreachable func: ")
		if file, _, hasLine := strings.Cut(position, ":"); ok && hasLine {
			names = append(names, file+" "+name)
		}
	}
	return names
}
