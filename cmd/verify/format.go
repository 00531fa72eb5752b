package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
)

// checkFormat lists Go files that gofmt would change and those whose imports are
// out of order, and changes templates that templ fmt would, for it knows no dry
// run.
func checkFormat(ctx context.Context, tree *sourceTree) error {
	return errors.Join(tree.listUnformatted(ctx), tree.listMixedImports(), tree.runTool(ctx, "templ", "fmt", "-fail", "."))
}

func (t *sourceTree) listUnformatted(ctx context.Context) error {
	goroot, err := t.captureOutput(ctx, "go", "env", "GOROOT")
	if err != nil {
		return err
	}
	// gofmt is not always on PATH where go is.
	unformatted, err := t.captureOutput(ctx, filepath.Join(strings.TrimSpace(goroot), "bin", "gofmt"), "-l", ".")
	if err != nil {
		return err
	}
	if unformatted != "" {
		return fmt.Errorf("gofmt would change: %s", strings.Join(strings.Fields(unformatted), " "))
	}
	return nil
}
