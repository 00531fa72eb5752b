package main

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// importKind orders imports: the standard library, other modules, our own.
type importKind int

const (
	standardImport importKind = iota
	otherImport
	ownImport
)

func (k importKind) String() string {
	return [...]string{"the standard library", "other modules", "this module"}[k]
}

func importKindOf(path string) importKind {
	first, _, _ := strings.Cut(path, "/")
	switch {
	case first == "breakwright":
		return ownImport
	case strings.Contains(first, "."):
		return otherImport
	}
	return standardImport
}

// listMixedImports returns a complaint for each Go file or template written by
// hand whose imports do not stand in one block with a group for each kind, in
// order. Inside a group gofmt and templ fmt have sorted them.
func (t *sourceTree) listMixedImports() error {
	files, err := t.listFiles()
	if err != nil {
		return err
	}
	var problems []error
	for _, name := range files {
		if extension := filepath.Ext(name); extension != ".go" && extension != ".templ" {
			continue
		}
		text, err := os.ReadFile(filepath.Join(t.root, name))
		if err != nil {
			return err
		}
		if !isGenerated(text) {
			problems = append(problems, checkImportGroups(name, text))
		}
	}
	return errors.Join(problems...)
}

// checkImportGroups returns what is wrong with the imports of a Go file or a
// template, which begins like one. A file that does not parse is the compiler's
// to complain of.
func checkImportGroups(name string, text []byte) error {
	positions := token.NewFileSet()
	file, err := parser.ParseFile(positions, name, text, parser.ImportsOnly)
	if err != nil {
		return nil
	}
	if len(file.Decls) > 1 {
		return fmt.Errorf("%s: imports stand in one import block", name)
	}
	var before *ast.ImportSpec
	for _, spec := range file.Imports {
		if before != nil {
			apart := positions.Position(spec.Pos()).Line - positions.Position(before.End()).Line
			if err := compareImports(before, spec, apart > 1); err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
		}
		before = spec
	}
	return nil
}

// compareImports returns what is wrong with two imports, one after the other,
// with a line between them or not.
func compareImports(before, after *ast.ImportSpec, apart bool) error {
	was, is := importKindOf(importedPath(before)), importKindOf(importedPath(after))
	switch {
	case is < was:
		return fmt.Errorf("%s comes after imports of %s", after.Path.Value, was)
	case is == was && apart:
		return fmt.Errorf("%s begins the second of two groups of %s", after.Path.Value, is)
	case is != was && !apart:
		return fmt.Errorf("%s stands in one group with imports of %s", after.Path.Value, was)
	}
	return nil
}

func importedPath(spec *ast.ImportSpec) string {
	path, err := strconv.Unquote(spec.Path.Value)
	if err != nil {
		return spec.Path.Value
	}
	return path
}
