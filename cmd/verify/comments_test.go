package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// namedFirst is a comment that says of a name what it is.
var namedFirst = regexp.MustCompile(`^([A-Z]\w*) (?:is|are|says|holds|counts|lists|has|had|reports|returns|means)\b`)

// notNames begin a sentence about a field without being meant as its name.
var notNames = []string{"What", "It", "They", "This", "These", "That", "Nothing", "Nobody", "One", "All", "Who", "None"}

// A field's comment that begins with a name begins with its own: one that was renamed
// takes its comment along. Functions and types are looked after by staticcheck.
func TestFields_CommentsNameThem(t *testing.T) {
	for _, folder := range []string{"cmd", "internal", "web", "static", "sql"} {
		err := filepath.WalkDir(filepath.Join("../..", folder), func(path string, entry os.DirEntry, err error) error {
			if err != nil || entry.IsDir() || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") {
				return err
			}
			text, err := os.ReadFile(path)
			if err != nil || isGenerated(text) {
				return err
			}
			for _, problem := range misnamedFields(t, path, text) {
				t.Error(problem)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

func TestFields_FindsAnotherName(t *testing.T) {
	const declared = "package p\n\ntype P struct {\n\t// Says is why.\n\tFailure string\n\t// B is the second.\n\tA, B int\n\t// What is left.\n\tC int\n\t// Nobody has it.\n\tD int\n}\n"
	if problems := misnamedFields(t, "p.go", []byte(declared)); len(problems) != 1 || !strings.Contains(problems[0], "Failure") {
		t.Errorf("found %q, want that of Failure alone", problems)
	}
}

// misnamedFields returns the fields of a file whose comments begin with another name.
func misnamedFields(t *testing.T, path string, text []byte) (problems []string) {
	t.Helper()
	positions := token.NewFileSet()
	file, err := parser.ParseFile(positions, path, text, parser.ParseComments|parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	ast.Inspect(file, func(node ast.Node) bool {
		field, ok := node.(*ast.Field)
		if !ok || field.Doc == nil || len(field.Names) == 0 {
			return true
		}
		found := namedFirst.FindStringSubmatch(field.Doc.Text())
		isIts := func(name *ast.Ident) bool { return found[1] == name.Name }
		if found != nil && !slices.Contains(notNames, found[1]) && !slices.ContainsFunc(field.Names, isIts) {
			problems = append(problems, positions.Position(field.Pos()).String()+": the comment of "+field.Names[0].Name+" names "+found[1])
		}
		return true
	})
	return problems
}
