package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
)

// checkFormat lists Go files that gofmt would change, and changes templates
// that templ fmt would, for it knows no dry run.
func checkFormat(ctx context.Context, tree *tree) error {
	return errors.Join(tree.gofmt(ctx), tree.tool(ctx, "templ", "fmt", "-fail", "."))
}

func (t *tree) gofmt(ctx context.Context) error {
	goroot, err := t.ask(ctx, "go", "env", "GOROOT")
	if err != nil {
		return err
	}
	// gofmt is not always on PATH where go is.
	unformatted, err := t.ask(ctx, filepath.Join(strings.TrimSpace(goroot), "bin", "gofmt"), "-l", ".")
	if err != nil {
		return err
	}
	if unformatted != "" {
		return fmt.Errorf("gofmt would change: %s", strings.Join(strings.Fields(unformatted), " "))
	}
	return nil
}
