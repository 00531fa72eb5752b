package main

import (
	"context"
	"strconv"
)

// faultsByDefault is how many a soak makes: about four minutes.
const faultsByDefault = 1000

// soakSteps are the long ones, which -soak runs: each is tests in files marked
// "soak", which print a table of what they counted.
var soakSteps = []verifyStep{
	{"faults", "servers and databases fail under load: nothing acknowledged is lost or doubled", soakTests("./cmd/breakwright", "^TestSoak_Faults")},
	{"monkey", "twice as many random breaks as faults, over one tab, two and two phones, while lines, servers and clocks fail: what was acknowledged is stored, row for row", soakTests("./web/record", "^TestSoak_Monkey")},
	{"clients", "a thousand live boards beside students who record, and the memory that they take", soakTests("./cmd/breakwright", "^TestSoak_Clients")},
}

// soakTests returns a step that runs those tests of a package and shows what they say.
func soakTests(folder, pattern string) func(context.Context, *sourceTree) error {
	return func(ctx context.Context, tree *sourceTree) error {
		return tree.runShowing(ctx, []string{"BREAKWRIGHT_SOAK_FAULTS=" + strconv.Itoa(tree.faults), "BREAKWRIGHT_SOAK_SEED=" + strconv.Itoa(tree.seed)}, "go", "test", "-tags=soak", "-count=1", "-v", "-timeout=2h", "-run", pattern, folder)
	}
}
