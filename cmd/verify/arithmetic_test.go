package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
	"testing"
)

// TestArithmeticSharesNothing holds the promise that lets these packages be
// tested without the race detector: no goroutine, no channel, no lock. A value
// that is made once and then only read (sync.OnceValue) is allowed.
func TestArithmeticSharesNothing(t *testing.T) {
	for _, name := range arithmetic {
		folder := filepath.Join("..", "..", "internal", name)
		files, err := filepath.Glob(filepath.Join(folder, "*.go"))
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: no Go file found (%v)", folder, err)
		}
		for _, path := range files {
			if strings.HasSuffix(path, "_test.go") {
				continue
			}
			for _, found := range findSharing(t, path, nil) {
				t.Errorf("%s: %s; take the package off the list in tests.go", path, found)
			}
		}
	}
}

func TestArithmeticSharesNothing_FindsWhatShares(t *testing.T) {
	for source, want := range map[string]string{
		"package p\nfunc f() { go f() }":                                              "a goroutine",
		"package p\nvar c chan int":                                                   "a channel",
		"package p\nimport \"sync/atomic\"\nvar n atomic.Int64":                       "an import of sync/atomic",
		"package p\nimport \"sync\"\nvar m sync.Mutex":                                "sync.Mutex",
		"package p\nimport \"sync\"\nvar v = sync.OnceValue(func() int { return 1 })": "",
	} {
		if got := strings.Join(findSharing(t, "source.go", source), ", "); got != want {
			t.Errorf("%q: found %q, want %q", source, got, want)
		}
	}
}

// findSharing names what goroutines could share in a Go file.
func findSharing(t *testing.T, path string, source any) []string {
	t.Helper()
	file, err := parser.ParseFile(token.NewFileSet(), path, source, parser.SkipObjectResolution|parser.AllErrors)
	if err != nil && source == nil {
		t.Fatal(err)
	}
	var found []string
	for _, spec := range file.Imports {
		if spec.Path.Value == `"sync/atomic"` {
			found = append(found, "an import of sync/atomic")
		}
	}
	ast.Inspect(file, func(node ast.Node) bool {
		switch n := node.(type) {
		case *ast.GoStmt:
			found = append(found, "a goroutine")
		case *ast.ChanType:
			found = append(found, "a channel")
		case *ast.SelectorExpr:
			room, ok := n.X.(*ast.Ident)
			if ok && room.Name == "sync" && !strings.HasPrefix(n.Sel.Name, "Once") {
				found = append(found, "sync."+n.Sel.Name)
			}
		}
		return true
	})
	return found
}
