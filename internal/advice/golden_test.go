package advice_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"breakwright/internal/advice"
	"breakwright/internal/breaklog"
)

// TestGolden_CoachesExpect judges each log in testdata/golden and holds the
// advice against what a coach wrote down beforehand. A case that fails is read
// first and mended last: either the advice is wrong, or the expectation is, and
// then a comment in the case says why.
func TestGolden_CoachesExpect(t *testing.T) {
	for _, path := range listCases(t) {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txt"), func(t *testing.T) {
			e, a := judgeCase(t, path)
			t.Logf("%s\ncoach: %s\nverdict: %s, change: %s, outcome: %s\n%s\ncauses: %v", e.title, e.coach, a.Verdict, moveOf(a), outcomeOf(a), sentencesOf(a), a.Causes)
			for _, broken := range append(e.listBroken(a), listBrokenGrammar(sentencesOf(a))...) {
				t.Error(broken)
			}
		})
	}
}

func listCases(t *testing.T) []string {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join("testdata", "golden", "*.txt"))
	if err != nil {
		t.Fatal(err)
	}
	if len(paths) == 0 {
		t.Fatal("no case in testdata/golden")
	}
	return paths
}

func judgeCase(t *testing.T, path string) (expectation, advice.Advice) {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	head, log, found := bytes.Cut(text, []byte("\n\n"))
	if !found {
		t.Fatal("no empty line between the expectation and the log")
	}
	e, err := parseExpectation(string(head))
	if err != nil {
		t.Fatal(err)
	}
	history, err := breaklog.Read(bytes.NewReader(log))
	if err != nil {
		t.Fatal(err)
	}
	for _, set := range history {
		if set.Student != history[0].Student {
			t.Fatalf("two students, %s and %s, in one case", history[0].Student, set.Student)
		}
	}
	return e, advice.Judge(history, advice.Brief{})
}
