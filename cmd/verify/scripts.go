package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
)

// scriptTools holds the checkers of scripts and the versions of them: TypeScript
// reads the scripts as they are, with the types in *.d.ts there and in comments,
// and Biome lints them. Nothing in it is served or built.
const scriptTools = "internal/tools/js"

// checkScripts checks the types of what static/js holds, the page's scripts and
// the service worker each in its own world, lints it, and lets the service worker
// answer while storage fails.
func checkScripts(ctx context.Context, tree *sourceTree) error {
	if err := tree.installScriptTools(ctx); err != nil {
		return err
	}
	program := func(name string) string {
		return filepath.Join(tree.root, filepath.FromSlash(scriptTools), "node_modules", ".bin", name)
	}
	return errors.Join(
		tree.runShowing(ctx, nil, program("tsc"), "-p", scriptTools+"/tsconfig.json"),
		tree.runShowing(ctx, nil, program("tsc"), "-p", scriptTools+"/worker.tsconfig.json"),
		tree.runShowing(ctx, nil, program("biome"), "lint", "--error-on-warnings", "--config-path="+scriptTools, "static/js"),
		tree.runShowing(ctx, nil, "node", "--test", "--test-reporter=spec", scriptTools+"/worker.test.mjs"),
	)
}

// installScriptTools installs what the lock file names, unless that has been done
// since the file was written.
func (t *sourceTree) installScriptTools(ctx context.Context) error {
	folder := filepath.Join(t.root, filepath.FromSlash(scriptTools))
	if isNewer(filepath.Join(folder, "node_modules", ".package-lock.json"), filepath.Join(folder, "package-lock.json")) {
		return nil
	}
	return t.runShowing(ctx, nil, "npm", "ci", "--prefix", scriptTools, "--ignore-scripts", "--no-audit", "--no-fund")
}

// isNewer reports whether both files are there and the first was written no
// earlier than the second.
func isNewer(first, second string) bool {
	a, err := os.Stat(first)
	if err != nil {
		return false
	}
	b, err := os.Stat(second)
	return err == nil && !a.ModTime().Before(b.ModTime())
}
