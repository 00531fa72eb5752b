package main

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"go/printer"
	"go/token"
	"strconv"
	"strings"
)

// mutant is a Go file with one token changed.
type mutant struct {
	file     string // below the root
	function string // "" outside of functions
	line     int
	// code is the line as it is, without white space around it; was and is are the
	// token and what takes its place.
	code, was, is string
	offset        int // of was, in bytes
}

// key names a mutant over edits elsewhere in its file.
func (m mutant) key() string {
	return fmt.Sprintf("%s | %s | %s | %s → %s", m.file, m.function, m.code, m.was, m.is)
}

// apply returns the file's text with the token changed.
func (m mutant) apply(text []byte) []byte {
	var changed bytes.Buffer
	changed.Write(text[:m.offset])
	changed.WriteString(m.is)
	changed.Write(text[m.offset+len(m.was):])
	return changed.Bytes()
}

// otherCondition holds what each operator of a condition becomes: a limit moves
// by its own value, a condition turns round.
var otherCondition = map[token.Token]string{
	token.LSS: "<=", token.LEQ: "<", token.GTR: ">=", token.GEQ: ">",
	token.EQL: "!=", token.NEQ: "==", token.LAND: "||", token.LOR: "&&",
}

// listMutants returns every mutant of a file, in the order of the text: each
// operator of a condition, each number and each sign of a number changed.
func listMutants(name string, text []byte) ([]mutant, error) {
	positions := token.NewFileSet()
	file, err := parser.ParseFile(positions, name, text, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	lines := strings.Split(string(text), "\n")
	var found []mutant
	for _, declared := range file.Decls {
		function := nameFunction(declared)
		add := func(at token.Pos, was, is string) {
			p := positions.Position(at)
			found = append(found, mutant{file: name, function: function, line: p.Line, code: strings.TrimSpace(lines[p.Line-1]), was: was, is: is, offset: p.Offset})
		}
		ast.Inspect(declared, func(node ast.Node) bool { return mutateNode(node, add) })
	}
	return found, nil
}

// mutateNode adds what can be changed in a node. It returns whether to look
// inside.
func mutateNode(node ast.Node, add func(at token.Pos, was, is string)) bool {
	switch n := node.(type) {
	case *ast.ImportSpec, *ast.Field:
		return false
	case *ast.CallExpr:
		// How much room is made at first changes nothing.
		if name, ok := n.Fun.(*ast.Ident); ok && name.Name == "make" {
			return false
		}
	case *ast.BinaryExpr:
		if is, ok := otherCondition[n.Op]; ok {
			add(n.OpPos, n.Op.String(), is)
		}
	case *ast.UnaryExpr:
		if _, ok := n.X.(*ast.BasicLit); ok && n.Op == token.SUB {
			add(n.OpPos, "-", "+")
		}
	case *ast.BasicLit:
		if is, ok := otherNumber(n); ok {
			add(n.ValuePos, n.Value, is)
		}
	}
	return true
}

// otherNumber returns a number near a literal: a whole one is one more, a broken
// one a quarter more.
func otherNumber(literal *ast.BasicLit) (string, bool) {
	switch literal.Kind {
	case token.INT:
		n, err := strconv.ParseInt(literal.Value, 0, 64)
		return strconv.FormatInt(n+1, 10), err == nil
	case token.FLOAT:
		x, err := strconv.ParseFloat(literal.Value, 64)
		if x == 0 {
			return "0.25", err == nil
		}
		return strconv.FormatFloat(x*1.25, 'g', -1, 64), err == nil
	}
	return "", false
}

// nameFunction returns "function", "type.method", or "" for what is no function.
func nameFunction(declared ast.Decl) string {
	function, ok := declared.(*ast.FuncDecl)
	if !ok {
		return ""
	}
	if function.Recv == nil {
		return function.Name.Name
	}
	var receiver bytes.Buffer
	if err := printer.Fprint(&receiver, token.NewFileSet(), function.Recv.List[0].Type); err != nil {
		return function.Name.Name
	}
	return strings.TrimLeft(receiver.String(), "*") + "." + function.Name.Name
}
