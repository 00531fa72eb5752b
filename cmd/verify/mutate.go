package main

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// mutatedPackage is a package whose tests are judged by what they notice.
type mutatedPackage struct {
	folder string
	// leaveOut are the patterns of files that hold no rule and are not changed.
	leaveOut []string
	// skip are the tests that do not judge, as -skip has them: where some are slow, or
	// look at the whole rather than at a rule, the others must do.
	skip string
}

// mutatedPackages hold the rules that people meet. Kept mutation tools exist, and
// go-mutesting changes numbers as well; this small one takes a sample, builds beside
// the tree and keeps the reason why a survivor may live.
var mutatedPackages = []mutatedPackage{
	{folder: "internal/drill"},
	{folder: "internal/evidence"},
	{folder: "internal/advice", skip: "Toys"},
	{folder: "web/sync"},
	{
		folder: "internal/store",
		// How it is reached, brought up to date, saved and put back.
		leaveOut: []string{
			"backup*.go", "club_file*.go", "doctor.go", "dsn.go", "errors.go", "event*.go", "export.go", "health_probe.go", "id.go", "migrate*.go",
			"store.go", "time_limit.go", "transaction.go", "user_timeout*.go", "uuid.go",
		},
		skip: "Backup|ClubFile|Doctor|Export|Migrat|Walks|TimeLimit|Unavailable|Subscribe",
	},
}

// leastKilled is the share of mutants that a package's own tests must notice, of
// those that survivors.txt does not explain.
const leastKilled = 0.9

// survivorsPath lists the mutants that no test can notice, or none should, a line
// each: the mutant's key, "#", and why.
const survivorsPath = "cmd/verify/survivors.txt"

// mutantOutcome is how the tests took a mutant.
type mutantOutcome string

const (
	mutantKilled    mutantOutcome = "killed"
	mutantSurvived  mutantOutcome = "survived"
	mutantExplained mutantOutcome = "explained"
	mutantUnbuilt   mutantOutcome = "does not compile"
)

const mutantsByDefault = 100

// mutatePackages changes one token at a time and runs the package's own tests
// on it: a sample of count mutants of each package named, the same each time, or
// all for 0. It writes nothing into the tree.
func mutatePackages(ctx context.Context, tree *sourceTree, names string, count int) error {
	explained, err := readSurvivors(filepath.Join(tree.root, survivorsPath))
	if err != nil {
		return err
	}
	chosen, err := chooseMutated(names)
	if err != nil {
		return err
	}
	var problems []error
	for _, p := range chosen {
		problems = append(problems, p.mutate(ctx, tree, count, explained))
	}
	return errors.Join(problems...)
}

// chooseMutated picks packages by folder, with commas between, or all of them.
func chooseMutated(names string) (chosen []mutatedPackage, err error) {
	if names == "all" {
		return mutatedPackages, nil
	}
	for name := range strings.SplitSeq(names, ",") {
		at := slices.IndexFunc(mutatedPackages, func(p mutatedPackage) bool { return p.folder == name })
		if at < 0 {
			return nil, fmt.Errorf("%q is not among the packages whose mutants are made", name)
		}
		chosen = append(chosen, mutatedPackages[at])
	}
	return chosen, nil
}

func (p mutatedPackage) mutate(ctx context.Context, tree *sourceTree, count int, explained map[string]string) error {
	all, err := p.listMutants(tree)
	if err != nil {
		return err
	}
	sample := sampleMutants(all, count)
	judge, err := newMutantJudge(ctx, tree, p, sample)
	if err != nil {
		return err
	}
	defer judge.close()
	seen := map[mutantOutcome]int{}
	for i, m := range sample {
		outcome := mutantExplained
		if explained[m.key()] == "" {
			if outcome, err = judge.judge(ctx, i); err != nil {
				return err
			}
		}
		seen[outcome]++
		if outcome == mutantSurvived {
			tree.printLine("   %s:%d survived: %s", m.file, m.line, m.key())
		}
	}
	return p.sumUp(tree, len(all), seen)
}

// sumUp prints how a package's tests did, and complains when that is too little.
func (p mutatedPackage) sumUp(tree *sourceTree, all int, seen map[mutantOutcome]int) error {
	judged := seen[mutantKilled] + seen[mutantSurvived]
	if judged == 0 {
		return fmt.Errorf("%s: no mutant was judged", p.folder)
	}
	share := float64(seen[mutantKilled]) / float64(judged)
	tree.printLine("   %s: %d of %d mutants killed (%.0f %%), %d survive for a reason, %d do not compile; %d can be made",
		p.folder, seen[mutantKilled], judged, 100*share, seen[mutantExplained], seen[mutantUnbuilt], all)
	if share < leastKilled {
		return fmt.Errorf("%s: its tests notice %.0f %% of the mutants, want %.0f %%", p.folder, 100*share, 100*leastKilled)
	}
	return nil
}

func (p mutatedPackage) listMutants(tree *sourceTree) (all []mutant, err error) {
	names, err := filepath.Glob(filepath.Join(tree.root, p.folder, "*.go"))
	if err != nil {
		return nil, err
	}
	for _, path := range names {
		text, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		if strings.HasSuffix(path, "_test.go") || isGenerated(text) || !p.changes(filepath.Base(path)) {
			continue
		}
		found, err := listMutants(p.folder+"/"+filepath.Base(path), text)
		if err != nil {
			return nil, err
		}
		all = append(all, found...)
	}
	return all, nil
}

func (p mutatedPackage) changes(file string) bool {
	return !slices.ContainsFunc(p.leaveOut, func(pattern string) bool {
		matches, _ := filepath.Match(pattern, file)
		return matches
	})
}

// sampleMutants draws so many, the same ones each time; 0 for all.
func sampleMutants(all []mutant, count int) []mutant {
	if count <= 0 || count >= len(all) {
		return all
	}
	order := rand.New(rand.NewPCG(1, 2)).Perm(len(all))[:count]
	slices.Sort(order)
	sample := make([]mutant, count)
	for i, at := range order {
		sample[i] = all[at]
	}
	return sample
}

// readSurvivors reads the reasons by key; none is given without one.
func readSurvivors(path string) (map[string]string, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	reasons := map[string]string{}
	for line := range strings.Lines(string(text)) {
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		key, reason, _ := strings.Cut(line, " # ")
		if reason == "" {
			return nil, fmt.Errorf("%s: no reason after # in %q", path, line)
		}
		reasons[strings.TrimSpace(key)] = strings.TrimSpace(reason)
	}
	return reasons, nil
}
