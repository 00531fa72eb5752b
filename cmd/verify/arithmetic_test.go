package main

import (
	"go/ast"
	"go/build"
	"go/parser"
	"go/token"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestArithmeticSharesNothing holds the promise that lets these packages be
// tested without the race detector: no goroutine, no channel, no lock, no variable
// of the package that a function assigns to. A value that is made once and then only
// read (sync.OnceValue) is allowed.
func TestArithmeticSharesNothing(t *testing.T) {
	for _, name := range arithmetic {
		folder := filepath.Join("..", "..", filepath.FromSlash(name))
		paths, err := filepath.Glob(filepath.Join(folder, "*.go"))
		if err != nil || len(paths) == 0 {
			t.Fatalf("%s: no Go file found (%v)", folder, err)
		}
		files := map[string]*ast.File{}
		for _, path := range paths {
			file := parseFile(t, path, nil)
			if strings.HasSuffix(path, "_test.go") {
				if found := findSharing(file); len(found) > 0 {
					t.Errorf("%s: %s; its package's tests run without the race detector", path, strings.Join(found, ", "))
				}
				continue
			}
			files[path] = file
		}
		variables := packageVariables(files)
		for path, file := range files {
			for _, found := range append(findSharing(file), findChanges(file, variables)...) {
				t.Errorf("%s: %s; take the package off the list in tests.go", path, found)
			}
		}
	}
}

// Every package's tests are run: without the race detector those that only compute,
// with it all others.
func TestListWatched(t *testing.T) {
	watched, err := (&sourceTree{root: filepath.Join("..", "..")}).listWatched(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	run := slices.Clone(watched)
	for _, path := range arithmetic {
		run = append(run, "./"+path)
	}
	var all []string
	for _, path := range listLines(t) {
		all = append(all, "./"+strings.TrimPrefix(path, "breakwright/"))
	}
	slices.Sort(run)
	if slices.Sort(all); !slices.Equal(run, all) {
		t.Errorf("tests run of\n%v\nand there are\n%v", run, all)
	}
	if !strings.HasPrefix(watched[0], "./"+longestTests[0]) {
		t.Errorf("%s is first, not the longest", watched[0])
	}
}

// A file marked "!race" is run, since its package is tested twice, and starts nothing
// that the race detector would have to watch.
func TestTestedTwice(t *testing.T) {
	tree := &sourceTree{root: filepath.Join("..", "..")}
	names, err := tree.listFiles()
	if err != nil {
		t.Fatal(err)
	}
	marked := map[string]bool{}
	for _, name := range names {
		if !strings.HasSuffix(name, ".go") || !isUnwatched(t, filepath.Join(tree.root, name)) {
			continue
		}
		folder := path.Dir(name)
		marked[folder] = true
		if !slices.Contains(testedTwice, folder) || !strings.HasSuffix(name, "_test.go") {
			t.Errorf("%s is marked !race: it must be a test's, and %s on the list testedTwice", name, folder)
		}
		if found := findSharing(parseFile(t, filepath.Join(tree.root, name), nil)); len(found) > 0 {
			t.Errorf("%s: %s, and it runs without the race detector", name, strings.Join(found, ", "))
		}
	}
	for _, folder := range testedTwice {
		if !marked[folder] {
			t.Errorf("%s is tested twice and has no file marked !race", folder)
		}
	}
}

// isUnwatched reports whether a Go file is left out of a build with the race detector
// and not of one without.
func isUnwatched(t *testing.T, name string) bool {
	t.Helper()
	built := func(tags ...string) bool {
		context := build.Default
		context.BuildTags = tags
		is, err := context.MatchFile(filepath.Split(name))
		if err != nil {
			t.Fatal(err)
		}
		return is
	}
	return built() && !built("race")
}

func TestArithmeticSharesNothing_FindsWhatShares(t *testing.T) {
	for source, want := range map[string]string{
		"package p\nfunc f() { go f() }":                                              "a goroutine",
		"package p\nvar c chan int":                                                   "a channel",
		"package p\nimport \"sync/atomic\"\nvar n atomic.Int64":                       "an import of sync/atomic",
		"package p\nimport \"sync\"\nvar m sync.Mutex":                                "sync.Mutex",
		"package p\nimport \"sync\"\nvar v = sync.OnceValue(func() int { return 1 })": "",
		"package p\nvar n int\nfunc f() { n++ }":                                      "a change of n",
		"package p\nvar m = map[int][]int{}\nfunc f() { m[1][0] = 2 }":                "a change of m",
		"package p\nvar n int\nfunc f() { n := 1; n = 2; _ = n }":                     "",
		"package p\nvar n, m = 1, []int{1}\nfunc f() int { return n + m[0] }":         "",
	} {
		file := parseFile(t, "source.go", source)
		found := append(findSharing(file), findChanges(file, packageVariables(map[string]*ast.File{"source.go": file}))...)
		if got := strings.Join(found, ", "); got != want {
			t.Errorf("%q: found %q, want %q", source, got, want)
		}
	}
}

func parseFile(t *testing.T, path string, source any) *ast.File {
	t.Helper()
	file, err := parser.ParseFile(token.NewFileSet(), path, source, 0)
	if err != nil {
		t.Fatal(err)
	}
	return file
}

// packageVariables are the names of the variables that functions of a package could
// share.
func packageVariables(files map[string]*ast.File) map[string]bool {
	names := map[string]bool{}
	for _, file := range files {
		for _, declaration := range file.Decls {
			d, ok := declaration.(*ast.GenDecl)
			if !ok || d.Tok != token.VAR {
				continue
			}
			for _, spec := range d.Specs {
				for _, name := range spec.(*ast.ValueSpec).Names {
					names[name.Name] = name.Name != "_"
				}
			}
		}
	}
	return names
}

// findChanges names the package's variables that functions of a Go file assign to. What
// is changed through a pointer it does not see.
func findChanges(file *ast.File, variables map[string]bool) []string {
	var found []string
	note := func(target ast.Expr) {
		name := rootOf(target)
		if name == nil || !variables[name.Name] {
			return
		}
		// A name without an object is another file's; one declared in a function is its own.
		if name.Obj == nil || name.Obj == file.Scope.Lookup(name.Name) {
			found = append(found, "a change of "+name.Name)
		}
	}
	ast.Inspect(file, func(node ast.Node) bool {
		switch n := node.(type) {
		case *ast.AssignStmt:
			for _, target := range n.Lhs {
				note(target)
			}
		case *ast.IncDecStmt:
			note(n.X)
		}
		return true
	})
	return found
}

// rootOf is the variable that a target such as m[1].x belongs to; nil when it is
// none's.
func rootOf(target ast.Expr) *ast.Ident {
	for {
		switch t := target.(type) {
		case *ast.Ident:
			return t
		case *ast.IndexExpr:
			target = t.X
		case *ast.SelectorExpr:
			target = t.X
		case *ast.StarExpr:
			target = t.X
		case *ast.ParenExpr:
			target = t.X
		default:
			return nil
		}
	}
}

// findSharing names what goroutines could share in a Go file.
func findSharing(file *ast.File) []string {
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
