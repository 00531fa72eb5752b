package main

import (
	"cmp"
	"context"
	"fmt"
	"go/ast"
	goimporter "go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Most mutants of a package are woven into one copy of it, each asleep until an
// environment variable wakes it, so that the package is built once and not once a
// mutant. Operators and numbers become calls of the functions in mutantSwitch, with the
// types that they had. A mutant of a constant, of an array's length or of an index
// cannot be woven: it would no longer be one, or compile where it must not.

// mutantSwitch is the file that a woven package has besides: the mutants' calls. It also
// writes down which mutants were reached.
const mutantSwitch = `package %s

import (
	"cmp"
	"fmt"
	"os"
	"strconv"
	"sync/atomic"
)

var (
	mutantAwake, _ = strconv.Atoi(os.Getenv("AWAKE_MUTANT"))
	mutantTrail, _ = os.OpenFile(os.Getenv("MUTANT_TRAIL"), os.O_APPEND|os.O_WRONLY, 0)
	mutantsReached [%d]atomic.Bool
)

func mutantIs(id int) bool {
	if mutantTrail != nil && !mutantsReached[id].Swap(true) {
		fmt.Fprintln(mutantTrail, id)
	}
	return id == mutantAwake
}

func mutantLess[T cmp.Ordered](id int, a, b T) bool    { return a < b || mutantIs(id) && a == b }
func mutantAtMost[T cmp.Ordered](id int, a, b T) bool  { return a < b || !mutantIs(id) && a == b }
func mutantMore[T cmp.Ordered](id int, a, b T) bool    { return a > b || mutantIs(id) && a == b }
func mutantAtLeast[T cmp.Ordered](id int, a, b T) bool { return a > b || !mutantIs(id) && a == b }

func mutantAnd(id int, a bool, b func() bool) bool {
	if mutantIs(id) {
		return a || b()
	}
	return a && b()
}

func mutantOr(id int, a bool, b func() bool) bool {
	if mutantIs(id) {
		return a && b()
	}
	return a || b()
}

func mutantNumber[T any](id int, was, is T) T {
	if mutantIs(id) {
		return is
	}
	return was
}

var (
	_ = cmp.Less[int]
	_ = mutantLess[int]
	_ = mutantAtMost[int]
	_ = mutantMore[int]
	_ = mutantAtLeast[int]
	_ = mutantAnd
	_ = mutantOr
	_ = mutantNumber[int]
)
`

// wovenCall holds the function that an operator becomes.
var wovenCall = map[token.Token]string{
	token.LSS: "mutantLess(%d, ", token.LEQ: "mutantAtMost(%d, ", token.GTR: "mutantMore(%d, ", token.GEQ: "mutantAtLeast(%d, ",
	token.LAND: "mutantAnd(%d, ", token.LOR: "mutantOr(%d, ",
}

// goPackage is a package's own files, without tests, and what the compiler knows of them.
type goPackage struct {
	folder    string // absolute
	names     []string
	texts     map[string][]byte // by name
	positions *token.FileSet
	files     map[string]*ast.File
	imports   types.Importer
}

// readGoPackage reads the package in a folder below the root.
func readGoPackage(ctx context.Context, tree *sourceTree, folder string) (*goPackage, error) {
	out, err := tree.captureOutput(ctx, "go", "list", "-tags=quick", "-f", "{{range .GoFiles}}{{println .}}{{end}}", "./"+folder)
	if err != nil {
		return nil, err
	}
	p := &goPackage{folder: filepath.Join(tree.root, filepath.FromSlash(folder)), names: strings.Fields(out), texts: map[string][]byte{}}
	for _, name := range p.names {
		if p.texts[name], err = os.ReadFile(filepath.Join(p.folder, name)); err != nil {
			return nil, err
		}
	}
	exported, err := tree.captureOutput(ctx, "go", "list", "-tags=quick", "-deps", "-export", "-f", "{{if .Export}}{{.ImportPath}} {{.Export}}{{end}}",
		"./"+folder, "cmp", "fmt", "os", "strconv", "sync/atomic") // the last are what mutantSwitch imports
	if err != nil {
		return nil, err
	}
	compiled := map[string]string{}
	for line := range strings.Lines(exported) {
		path, file, _ := strings.Cut(strings.TrimSpace(line), " ")
		compiled[path] = file
	}
	p.positions = token.NewFileSet()
	p.imports = goimporter.ForCompiler(p.positions, "gc", func(path string) (io.ReadCloser, error) { return os.Open(compiled[path]) })
	return p, nil
}

// checkTypes finds the types in these texts, and the lines, by file, of what is wrong
// with them.
func (p *goPackage) checkTypes(texts map[string][]byte) (info *types.Info, wrong map[string][]int, err error) {
	p.files, wrong = map[string]*ast.File{}, map[string][]int{}
	var files []*ast.File
	for _, name := range slices.Sorted(maps.Keys(texts)) {
		file, err := parser.ParseFile(p.positions, name, texts[name], parser.SkipObjectResolution)
		if err != nil {
			return nil, nil, err
		}
		p.files[name], files = file, append(files, file)
	}
	info = &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
	config := types.Config{Importer: p.imports, Error: func(err error) {
		if problem, ok := err.(types.Error); ok {
			at := p.positions.Position(problem.Pos)
			wrong[at.Filename] = append(wrong[at.Filename], at.Line)
		}
	}}
	_, _ = config.Check(files[0].Name.Name, p.positions, files, info) // what is wrong is in the lines
	return info, wrong, nil
}

// weave returns the package's texts with the mutants in them, each of which is known by
// its place in the list and one more, and those that could be woven.
func (p *goPackage) weave(mutants []mutant) (texts map[string][]byte, woven []bool, err error) {
	info, wrong, err := p.checkTypes(p.texts)
	if err != nil {
		return nil, nil, err
	}
	if len(wrong) > 0 {
		return nil, nil, fmt.Errorf("%s has wrong types in %v", p.folder, wrong)
	}
	plain := p.files
	woven = make([]bool, len(mutants))
	for i := range woven {
		woven[i] = true
	}
	for {
		texts = map[string][]byte{}
		spans := make([]lineSpan, len(mutants))
		for name, file := range plain {
			w := mutantWeaver{text: p.texts[name], positions: p.positions, info: info, file: file, ids: map[int]int{}, woven: woven, spans: spans, mutants: mutants}
			for i, m := range mutants {
				if filepath.Base(m.file) == name && woven[i] {
					w.ids[m.offset] = i + 1
				}
			}
			texts[name] = w.weaveFile()
		}
		for i, span := range spans {
			woven[i] = woven[i] && span != lineSpan{}
		}
		texts["mutant_switch.go"] = fmt.Appendf(nil, mutantSwitch, plain[p.names[0]].Name.Name, len(mutants)+1)
		_, wrong, err := p.checkTypes(texts)
		if err != nil || len(wrong) == 0 {
			return texts, woven, err
		}
		if !dropWrong(mutants, woven, spans, wrong) {
			return nil, nil, fmt.Errorf("%s: mutants cannot be woven: %v", p.folder, wrong)
		}
	}
}

// lineSpan is the first and the last line of what a mutant changes.
type lineSpan struct{ first, last int }

// dropWrong leaves out the mutants that stand where the types are wrong. It returns
// whether there were any.
func dropWrong(mutants []mutant, woven []bool, spans []lineSpan, wrong map[string][]int) (dropped bool) {
	for i, m := range mutants {
		here := func(line int) bool { return spans[i].first <= line && line <= spans[i].last }
		if woven[i] && slices.ContainsFunc(wrong[filepath.Base(m.file)], here) {
			woven[i], dropped = false, true
		}
	}
	return dropped
}

// mutantWeaver weaves mutants into one file.
type mutantWeaver struct {
	text      []byte
	positions *token.FileSet
	info      *types.Info
	file      *ast.File
	ids       map[int]int // by offset
	woven     []bool
	spans     []lineSpan
	mutants   []mutant
	edits     []textEdit
}

// textEdit puts text in a place of so many bytes. At one place an outer edit opens
// before an inner one, and closes after it.
type textEdit struct {
	at, length int
	text       string
	depth      int
	closes     bool
}

func (w *mutantWeaver) weaveFile() []byte {
	var above []ast.Node
	ast.Inspect(w.file, func(node ast.Node) bool {
		if node == nil {
			above = above[:len(above)-1]
			return true
		}
		w.weaveNode(node, above)
		above = append(above, node)
		return true
	})
	slices.SortStableFunc(w.edits, func(a, b textEdit) int {
		if a.at != b.at {
			return cmp.Compare(a.at, b.at)
		}
		switch {
		case a.closes && b.closes:
			return cmp.Compare(b.depth, a.depth)
		case a.closes != b.closes:
			return map[bool]int{true: -1, false: 1}[a.closes]
		}
		return cmp.Compare(a.depth, b.depth)
	})
	var out []byte
	at := 0
	for _, e := range w.edits {
		out = append(append(out, w.text[at:e.at]...), e.text...)
		at = e.at + e.length
	}
	return append(out, w.text[at:]...)
}

// weaveNode weaves the mutant of a node, if it has one.
func (w *mutantWeaver) weaveNode(node ast.Node, above []ast.Node) {
	switch n := node.(type) {
	case *ast.BinaryExpr:
		id, ok := w.ids[w.offset(n.OpPos)]
		switch {
		case !ok || w.info.Types[n].Value != nil:
			w.leaveOut(id)
		case n.Op == token.EQL || n.Op == token.NEQ:
			w.wrap(id, n, len(above), "((", fmt.Sprintf(") != mutantIs(%d))", id))
		case n.Op == token.LAND || n.Op == token.LOR:
			w.wrap(id, n, len(above), fmt.Sprintf(wovenCall[n.Op], id), ") })")
			w.replace(n.OpPos, len(n.Op.String()), ", func() bool { return (")
		default:
			w.wrap(id, n, len(above), fmt.Sprintf(wovenCall[n.Op], id), ")")
			w.replace(n.OpPos, len(n.Op.String()), ",")
		}
	case *ast.UnaryExpr:
		if id, ok := w.ids[w.offset(n.OpPos)]; ok && n.Op == token.SUB {
			w.weaveNumber(id, n, above, "+")
		}
	case *ast.BasicLit:
		if id, ok := w.ids[w.offset(n.ValuePos)]; ok && w.mutants[id-1].was == n.Value {
			w.weaveNumber(id, n, above, w.mutants[id-1].is)
		}
	}
}

// weaveNumber weaves another number, or another sign, in the place of one.
func (w *mutantWeaver) weaveNumber(id int, n ast.Expr, above []ast.Node, is string) {
	name, known := w.nameType(w.typeOf(n, above))
	if !known || mustBeConstant(n, above) {
		w.leaveOut(id)
		return
	}
	open, end := fmt.Sprintf("mutantNumber[%s](%d, ", name, id), ", "+is+")"
	if unary, ok := n.(*ast.UnaryExpr); ok {
		end = ", " + is + unary.X.(*ast.BasicLit).Value + ")"
	}
	w.wrap(id, n, len(above), open, end)
}

// mustBeConstant reports whether a number stands in a constant, in an array's length or
// in an index.
func mustBeConstant(n ast.Expr, above []ast.Node) bool {
	inside := ast.Node(n)
	for _, node := range slices.Backward(above) {
		switch around := node.(type) {
		case *ast.GenDecl:
			return around.Tok == token.CONST
		case *ast.ArrayType:
			return around.Len == inside
		case *ast.IndexExpr:
			if around.Index == inside {
				return true
			}
		case *ast.SliceExpr:
			return around.X != inside
		case ast.Stmt:
			if _, declares := node.(*ast.DeclStmt); !declares {
				return false
			}
		}
		inside = node
	}
	return false
}

// typeOf returns the type of a number; of a part of a constant expression the
// expression's, since only that is given one.
func (w *mutantWeaver) typeOf(n ast.Expr, above []ast.Node) types.Type {
	t := w.info.Types[n].Type
	for _, node := range slices.Backward(above) {
		around, ok := node.(ast.Expr)
		if basic, is := t.(*types.Basic); !ok || !is || basic.Info()&types.IsUntyped == 0 {
			break
		}
		t = w.info.Types[around].Type
	}
	return t
}

// nameType names a type as this file may write it.
func (w *mutantWeaver) nameType(t types.Type) (name string, known bool) {
	known = t != nil
	if !known {
		return "", false
	}
	if basic, ok := t.(*types.Basic); ok && basic.Info()&types.IsUntyped != 0 {
		return "", false
	}
	return types.TypeString(t, func(p *types.Package) string {
		if p.Path() == w.file.Name.Name { // as it was checked
			return ""
		}
		for _, imported := range w.file.Imports {
			if strings.Trim(imported.Path.Value, `"`) == p.Path() {
				return cmp.Or(nameOf(imported.Name), p.Name())
			}
		}
		known = false
		return p.Name()
	}), known
}

func nameOf(identifier *ast.Ident) string {
	if identifier == nil {
		return ""
	}
	return identifier.Name
}

func (w *mutantWeaver) offset(at token.Pos) int { return w.positions.Position(at).Offset }

// wrap puts text before and after a node.
func (w *mutantWeaver) wrap(id int, n ast.Node, depth int, open, end string) {
	first, last := w.positions.Position(n.Pos()), w.positions.Position(n.End())
	w.spans[id-1] = lineSpan{first.Line, last.Line}
	w.edits = append(w.edits, textEdit{at: first.Offset, text: open, depth: depth}, textEdit{at: last.Offset, text: end, depth: depth, closes: true})
}

// replace puts text in the place of an operator.
func (w *mutantWeaver) replace(at token.Pos, length int, text string) {
	w.edits = append(w.edits, textEdit{at: w.offset(at), length: length, text: text})
}

func (w *mutantWeaver) leaveOut(id int) {
	if id > 0 {
		w.woven[id-1] = false
	}
}
