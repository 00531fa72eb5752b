package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
)

// measureFunctions returns the length of every function in a Go file, from its
// first line to its closing brace, and what is wrong with the longest ones. A
// file that does not parse is the compiler's to complain of.
func measureFunctions(name string, text []byte) (lengths []int, problems []error) {
	positions := token.NewFileSet()
	file, err := parser.ParseFile(positions, name, text, parser.SkipObjectResolution)
	if err != nil {
		return nil, nil
	}
	for _, declaration := range file.Decls {
		function, ok := declaration.(*ast.FuncDecl)
		if !ok {
			continue
		}
		lines := positions.Position(function.End()).Line - positions.Position(function.Pos()).Line + 1
		lengths = append(lengths, lines)
		if lines > longestFunction {
			problems = append(problems, fmt.Errorf("%s: %s has %d lines, over %d", name, function.Name.Name, lines, longestFunction))
		}
	}
	return lengths, problems
}
