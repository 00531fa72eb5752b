// Command verify checks everything that must hold before a change is kept, and
// is what continuous integration runs:
//
//	go run ./cmd/verify              everything
//	go run ./cmd/verify -quick       no race detector, no browser, nothing that computes for long: while working
//	go run ./cmd/verify -only vet,test
//	go run ./cmd/verify -list        what there is
//	go run ./cmd/verify -mutate internal/drill   do its tests notice a changed token?
//	go run ./cmd/verify -soak        what takes an hour instead: faults, many clients, a monkey
//
// It goes on after a failure, lists all failures at the end, and exits 1 when
// there is one. It writes no file but the templates that it formats. As root
// on Debian or Ubuntu it installs what the tests need; elsewhere it says what
// is missing.
package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/signal"
	"slices"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	os.Exit(runVerify(ctx, os.Args[1:], os.Stdout))
}

func runVerify(ctx context.Context, arguments []string, out io.Writer) (exit int) {
	flags := flag.NewFlagSet("verify", flag.ContinueOnError)
	flags.SetOutput(out)
	only := flags.String("only", "", "run these `steps` alone: names with commas between")
	list := flags.Bool("list", false, "list the steps and stop")
	quick := flags.Bool("quick", false, "tests without the race detector, the browser and what computes for long")
	soak := flags.Bool("soak", false, "run the long steps instead, which are no part of a check before a change")
	faults := flags.Int("faults", faultsByDefault, "with -soak: how many over all")
	seed := flags.Int("seed", 1+rand.IntN(1_000_000), "with -soak: `number` that its random choices begin with; it is printed")
	mutate := flags.String("mutate", "", "instead of the steps: change one token at a time in these `packages` (all for each that it knows) and see whether their own tests notice")
	mutants := flags.Int("mutants", mutantsByDefault, "with -mutate: how many of each package; 0 for every one")
	if err := flags.Parse(arguments); err != nil {
		return 2
	}
	steps := verifySteps
	if *soak {
		steps = soakSteps
	}
	if *list {
		for _, step := range steps {
			fmt.Fprintf(out, "%-12s %s\n", step.name, step.about)
		}
		return 0
	}
	if *quick && *only == "" {
		steps = slices.DeleteFunc(slices.Clone(steps), func(step verifyStep) bool { return step.name == notQuick })
	}
	chosen, err := chooseSteps(steps, *only)
	if err != nil {
		fmt.Fprintln(out, err)
		return 2
	}
	root, err := findRoot(".")
	if err != nil {
		fmt.Fprintln(out, err)
		return 2
	}
	if *mutate != "" {
		chosen = []verifyStep{{"mutate", "the packages' own tests notice a changed token", func(ctx context.Context, tree *sourceTree) error {
			return mutatePackages(ctx, tree, *mutate, *mutants)
		}}}
	}
	if !runSteps(ctx, chosen, &sourceTree{root: root, quick: *quick, faults: *faults, seed: *seed, out: out}) {
		return 1
	}
	return 0
}
