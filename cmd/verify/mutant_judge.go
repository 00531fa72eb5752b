package main

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

const (
	// mutantTimeLimit is for the tests on one mutant: one that never ends is killed.
	mutantTimeLimit = 2 * time.Minute
	// firstTestsTake is how much of the processor's time the tests take that are tried
	// first, the quickest of a package: they notice most.
	firstTestsTake = time.Second
)

// mutantJudge runs a package's own tests on its mutants: each test that comes by a
// mutant, the quickest first, until one fails.
type mutantJudge struct {
	tree         *sourceTree
	folder       string // below the root
	scratch      string
	mutants      []mutant
	woven        []bool
	binary       string   // of the package with the mutants woven in
	drawnTheSame []string // flags that make random tests draw the same, and write no file
	tests        []judgingTest
	skipped      *regexp.Regexp
}

// judgingTest is a test that passes, and which mutants it comes by.
type judgingTest struct {
	name    string
	took    time.Duration
	reaches map[int]bool // by id
}

// newMutantJudge builds the package with its mutants woven in and runs each test once by
// itself. The caller closes the judge.
func newMutantJudge(ctx context.Context, tree *sourceTree, p mutatedPackage, mutants []mutant) (*mutantJudge, error) {
	scratch, err := os.MkdirTemp("", "mutant-")
	if err != nil {
		return nil, err
	}
	j := &mutantJudge{tree: tree, folder: p.folder, scratch: scratch, mutants: mutants, binary: filepath.Join(scratch, "woven.test")}
	if p.skip != "" {
		j.skipped, err = regexp.Compile(p.skip)
	}
	if err = errors.Join(err, j.buildWoven(ctx)); err == nil {
		err = j.watchTests(ctx)
	}
	if err != nil {
		j.close()
		return nil, fmt.Errorf("%s: %w", p.folder, err)
	}
	return j, nil
}

func (j *mutantJudge) close() { _ = os.RemoveAll(j.scratch) } // a folder of ours for temporary files

func (j *mutantJudge) buildWoven(ctx context.Context) error {
	p, err := readGoPackage(ctx, j.tree, j.folder)
	if err != nil {
		return err
	}
	texts, woven, err := p.weave(j.mutants)
	if err != nil {
		return err
	}
	j.woven = woven
	out, err := j.build(ctx, j.binary, texts)
	if err != nil {
		return fmt.Errorf("with its mutants woven in: %w\n%s", err, out)
	}
	return nil
}

// build builds the package's tests with other texts in the place of some files.
func (j *mutantJudge) build(ctx context.Context, binary string, texts map[string][]byte) (out []byte, err error) {
	replace := map[string]string{}
	for name, text := range texts {
		changed := filepath.Join(j.scratch, name)
		if err := os.WriteFile(changed, text, 0o600); err != nil {
			return nil, err
		}
		replace[filepath.Join(j.tree.root, filepath.FromSlash(j.folder), name)] = changed
	}
	overlay, err := json.Marshal(map[string]map[string]string{"Replace": replace})
	if err != nil {
		return nil, err
	}
	path := filepath.Join(j.scratch, "overlay.json")
	if err := os.WriteFile(path, overlay, 0o600); err != nil {
		return nil, err
	}
	return j.tree.newCommand(ctx, nil, "go", "test", "-c", "-tags=quick", "-vet=off", "-ldflags=-s -w", "-overlay="+path, "-o", binary, "./"+j.folder).CombinedOutput()
}

// watchTests runs each test by itself, with every mutant asleep, to learn which mutants
// it comes by and how long it takes.
func (j *mutantJudge) watchTests(ctx context.Context) error {
	drawnTheSame := []string{"-rapid.seed=1", "-rapid.checks=20", "-rapid.nofailfile", "-rapid.shrinktime=0s"}
	if _, _, err := j.run(ctx, j.binary, nil, append([]string{"-test.list=^$"}, drawnTheSame...)...); err == nil {
		j.drawnTheSame = drawnTheSame
	}
	list, _, err := j.run(ctx, j.binary, nil, "-test.list=^(Test|Example|Fuzz)")
	if err != nil {
		return fmt.Errorf("%w\n%s", err, list)
	}
	trail := filepath.Join(j.scratch, "trail")
	for name := range strings.FieldsSeq(string(list)) {
		if j.skipped != nil && j.skipped.MatchString(name) {
			continue
		}
		if err := os.WriteFile(trail, nil, 0o600); err != nil {
			return err
		}
		out, used, err := j.runTests(ctx, j.binary, []string{name}, "MUTANT_TRAIL="+trail)
		if err != nil {
			return fmt.Errorf("its tests do not pass as it is: %s: %w\n%s", name, err, out)
		}
		test := judgingTest{name: name, took: used, reaches: map[int]bool{}}
		text, err := os.ReadFile(trail)
		if err != nil {
			return err
		}
		for line := range strings.FieldsSeq(string(text)) {
			id, err := strconv.Atoi(line)
			if err != nil {
				return err
			}
			test.reaches[id] = true
		}
		j.tests = append(j.tests, test)
	}
	slices.SortStableFunc(j.tests, func(a, b judgingTest) int { return cmp.Compare(a.took, b.took) })
	return ctx.Err()
}

// judge returns how the tests took the mutant at a place of the list. One that could not
// be woven is built by itself, and every test runs on it.
func (j *mutantJudge) judge(ctx context.Context, at int) (mutantOutcome, error) {
	binary, awake := j.binary, "AWAKE_MUTANT="+strconv.Itoa(at+1)
	if !j.woven[at] {
		m := j.mutants[at]
		text, err := os.ReadFile(filepath.Join(j.tree.root, filepath.FromSlash(m.file)))
		if err != nil {
			return "", err
		}
		binary, awake = filepath.Join(j.scratch, "single.test"), ""
		if _, err := j.build(ctx, binary, map[string][]byte{filepath.Base(m.file): m.apply(text)}); err != nil {
			return mutantUnbuilt, ctx.Err()
		}
	}
	for _, names := range j.chooseTests(at) {
		if _, _, err := j.runTests(ctx, binary, names, awake); err != nil {
			return mutantKilled, ctx.Err()
		}
	}
	return mutantSurvived, nil
}

// chooseTests returns the tests that may notice a mutant: a few quick ones, then the rest.
func (j *mutantJudge) chooseTests(at int) (batches [][]string) {
	var first, rest []string
	var took time.Duration
	for _, test := range j.tests {
		switch {
		case j.woven[at] && !test.reaches[at+1]:
		case took+test.took <= firstTestsTake || len(first) == 0:
			first, took = append(first, test.name), took+test.took
		default:
			rest = append(rest, test.name)
		}
	}
	for _, names := range [][]string{first, rest} {
		if len(names) > 0 {
			batches = append(batches, names)
		}
	}
	return batches
}

func (j *mutantJudge) runTests(ctx context.Context, binary string, names []string, addition string) (out []byte, used time.Duration, err error) {
	return j.run(ctx, binary, []string{addition}, append([]string{
		"-test.run=^(" + strings.Join(names, "|") + ")$", "-test.failfast", "-test.timeout=" + mutantTimeLimit.String(),
	}, j.drawnTheSame...)...)
}

// run runs a test binary in its package's folder, and returns what it printed and how much
// of the processor's time it used.
func (j *mutantJudge) run(ctx context.Context, binary string, additions []string, arguments ...string) (out []byte, used time.Duration, err error) {
	command := j.tree.newCommand(ctx, additions, binary, arguments...)
	command.Dir = filepath.Join(j.tree.root, filepath.FromSlash(j.folder))
	out, err = command.CombinedOutput()
	if command.ProcessState != nil {
		used = command.ProcessState.UserTime() + command.ProcessState.SystemTime()
	}
	return out, used, err
}
