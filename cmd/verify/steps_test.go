package main

import (
	"bytes"
	"context"
	"errors"
	"path/filepath"
	"strings"
	"testing"
)

func TestChoose(t *testing.T) {
	names := func(steps []verifyStep) string {
		var all []string
		for _, step := range steps {
			all = append(all, step.name)
		}
		return strings.Join(all, " ")
	}
	if got, err := chooseSteps(verifySteps, ""); err != nil || len(got) != len(verifySteps) {
		t.Errorf("no names: %d steps (%v), want all %d", len(got), err, len(verifySteps))
	}
	if got, err := chooseSteps(verifySteps, "test, vet"); err != nil || names(got) != "vet test" {
		t.Errorf("two names: %q (%v), want their own order", names(got), err)
	}
	if got, err := chooseSteps(verifySteps, "vet,tset"); err == nil || !strings.Contains(err.Error(), `"tset"`) {
		t.Errorf("a misspelt name: %q (%v), want an error that names it", names(got), err)
	}
}

func TestSteps_HaveNamesOfTheirOwn(t *testing.T) {
	seen := map[string]bool{}
	for _, step := range verifySteps {
		if seen[step.name] || step.name == "" || strings.ContainsAny(step.name, ", ") {
			t.Errorf("the name %q is empty, taken, or has a comma or space", step.name)
		}
		seen[step.name] = true
	}
}

func TestRunAll_GoesOnAfterAFailureAndListsIt(t *testing.T) {
	var ran []string
	does := func(name string, err error) verifyStep {
		return verifyStep{name, "test", func(context.Context, *sourceTree) error {
			ran = append(ran, name)
			return err
		}}
	}
	var out bytes.Buffer
	passed := runSteps(t.Context(), []verifyStep{does("one", errors.New("broken rack")), does("two", nil)}, &sourceTree{out: &out})
	if passed || len(ran) != 2 {
		t.Errorf("passed %v after running %q", passed, ran)
	}
	if text := out.String(); !strings.HasSuffix(text, "  one: broken rack\n") || !strings.Contains(text, "1 of 2 steps failed") {
		t.Errorf("the failure is not at the end:\n%s", text)
	}
	if !runSteps(t.Context(), []verifyStep{does("three", nil)}, &sourceTree{out: &out}) {
		t.Error("nothing failed and yet it did not pass")
	}
}

func TestRunAll_AnInterruptIsNoSuccess(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	interrupted := verifyStep{"one", "test", func(context.Context, *sourceTree) error { cancel(); return nil }}
	never := verifyStep{"two", "test", func(context.Context, *sourceTree) error {
		t.Error("a step ran after the interrupt")
		return nil
	}}
	var out bytes.Buffer
	if runSteps(ctx, []verifyStep{interrupted, never}, &sourceTree{out: &out}) || !strings.Contains(out.String(), "Interrupted after 1 of 2") {
		t.Errorf("it passed, or does not say why not:\n%s", &out)
	}
}

func TestRun_ExitCodes(t *testing.T) {
	for arguments, want := range map[string]int{
		"-list":         0,
		"-only nothing": 2,
		"-unknown":      2,
	} {
		var out bytes.Buffer
		if got := runVerify(t.Context(), strings.Fields(arguments), &out); got != want || out.Len() == 0 {
			t.Errorf("%s: exit %d, want %d, and a word about it; said %q", arguments, got, want, &out)
		}
	}
}

func TestFindRoot(t *testing.T) {
	root, err := findRoot(".")
	if err != nil {
		t.Fatal(err)
	}
	here, err := filepath.Abs(".")
	if err != nil {
		t.Fatal(err)
	}
	if want := filepath.Dir(filepath.Dir(here)); root != want {
		t.Errorf("the root is %s, want %s", root, want)
	}
	if _, err := findRoot("/"); err == nil {
		t.Error("the root folder is taken for a source tree")
	}
}
