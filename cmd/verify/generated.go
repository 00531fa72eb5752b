package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// checkTempl compares the code beside each template with what templ would
// write today. Code whose template is gone is looked for first, because templ
// deletes it without a word.
func checkTempl(ctx context.Context, tree *sourceTree) error {
	files, err := tree.listFiles()
	if err != nil {
		return err
	}
	return errors.Join(
		checkOrphans(files),
		tree.explainStale("templ generate", tree.runTool(ctx, "templ", "generate", "-check", "-keep-orphaned-files", "-log-level=warn")),
		tree.checkTracked(ctx, "*_templ.go"),
	)
}

func checkOrphans(files []string) error {
	var left []string
	for _, file := range files {
		stem, isCode := strings.CutSuffix(file, "_templ.go")
		if isCode && !slices.Contains(files, stem+".templ") {
			left = append(left, file)
		}
	}
	if len(left) > 0 {
		return fmt.Errorf("the templates of these are gone: %s", strings.Join(left, " "))
	}
	return nil
}

// checkSqlc asks sqlc itself for the difference, and so also whether every
// query fits the tables.
func checkSqlc(ctx context.Context, tree *sourceTree) error {
	return errors.Join(
		tree.explainStale("sqlc generate -f sql/sqlc.yaml", tree.runTool(ctx, "sqlc", "diff", "-f", "sql/sqlc.yaml")),
		tree.checkTracked(ctx, "internal/store/**/*.go"),
	)
}

// explainStale says how to mend stale code. It must be made at the top of the tree,
// because templ writes each template's path from where it was called.
func (t *sourceTree) explainStale(arguments string, stale error) error {
	if stale != nil {
		t.printLine("   At the top of the tree, run: go tool -modfile=internal/tools/go.mod %s", arguments)
	}
	return stale
}

// checkTracked fails for files that git does not know: they would be missing in
// everyone else's copy. Outside a git checkout there is nothing to say.
func (t *sourceTree) checkTracked(ctx context.Context, pattern string) error {
	untracked, err := t.captureOutput(ctx, "git", "ls-files", "--others", "--", ":(glob)**/"+pattern)
	if err != nil {
		t.printLine("   (git cannot say which files it keeps: not checked)")
		return nil
	}
	if untracked != "" {
		return fmt.Errorf("not in git yet: %s", strings.Join(strings.Fields(untracked), " "))
	}
	return nil
}
