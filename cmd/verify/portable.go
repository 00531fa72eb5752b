package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"path/filepath"
	"strings"
)

// checkPortable reads everything as the compilers for the other systems and processors do
// that clubs and developers have: every name and type of ours must be right there too.
// No code is made, which would take ten times as long, and nothing runs.
func checkPortable(ctx context.Context, tree *sourceTree) error {
	var problems []error
	for _, s := range []struct{ system, processor string }{{"darwin", "arm64"}, {"windows", "amd64"}} {
		problems = append(problems, tree.checkTypes(ctx, s.system, s.processor))
	}
	return errors.Join(problems...)
}

// compiledPackage is what go list says of a package.
type compiledPackage struct {
	ImportPath, Dir string
	GoFiles         []string
	ImportMap       map[string]string
	Module          *struct{ Main bool }
	Error           *struct{ Err string }
}

// checkTypes returns what is wrong with our packages on a system. Of other
// people's only what they declare is read.
func (t *sourceTree) checkTypes(ctx context.Context, system, processor string) error {
	command := t.newCommand(ctx, []string{"GOOS=" + system, "GOARCH=" + processor, "CGO_ENABLED=0"},
		"go", "list", "-deps", "-e", "-json=ImportPath,Dir,GoFiles,ImportMap,Module,Error", "./...")
	out, err := command.Output()
	if err != nil {
		return fmt.Errorf("go list for %s: %w", system, err)
	}
	reader := typeReader{files: token.NewFileSet(), read: map[string]*types.Package{"unsafe": types.Unsafe}}
	for list := json.NewDecoder(bytes.NewReader(out)); ; {
		var p compiledPackage
		if err := list.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			return fmt.Errorf("go list for %s: %w", system, err)
		}
		reader.readPackage(p) // what it imports is listed before it
	}
	for i, problem := range reader.problems {
		reader.problems[i] = fmt.Errorf("%s: %w", system, problem)
	}
	return errors.Join(reader.problems...)
}

// typeReader reads packages, each after those that it imports.
type typeReader struct {
	files    *token.FileSet
	read     map[string]*types.Package
	problems []error // with our packages
}

// readPackage reads a package's declarations, and the functions' bodies of ours.
func (r *typeReader) readPackage(p compiledPackage) {
	if p.ImportPath == "unsafe" {
		return
	}
	ours := p.Module != nil && p.Module.Main
	complain := func(err error) {
		if ours {
			r.problems = append(r.problems, err)
		}
	}
	if p.Error != nil {
		complain(errors.New(strings.TrimSpace(p.Error.Err)))
	}
	var files []*ast.File
	for _, name := range p.GoFiles {
		file, err := parser.ParseFile(r.files, filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution)
		if err != nil {
			complain(err)
			continue
		}
		files = append(files, file)
	}
	config := types.Config{Importer: importer{r.read, p.ImportMap}, IgnoreFuncBodies: !ours, Error: complain, Sizes: types.SizesFor("gc", "amd64")}
	r.read[p.ImportPath], _ = config.Check(p.ImportPath, r.files, files, nil) // complain has heard it
}

// importer finds what was read before; renamed has the paths that stand for others.
type importer struct {
	read    map[string]*types.Package
	renamed map[string]string
}

// Import is what a types.Importer does.
func (i importer) Import(path string) (*types.Package, error) {
	if other := i.renamed[path]; other != "" {
		path = other
	}
	if p := i.read[path]; p != nil {
		return p, nil
	}
	return nil, fmt.Errorf("%s is not there", path)
}
