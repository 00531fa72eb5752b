package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"slices"
	"strings"
)

// The most that a reader should have to hold in mind at once: lines. A file
// that must be longer says why in a line near its top that begins, after the
// comment sign, with "Long:".
const (
	longestFunction = 60
	reasonWithin    = 12 // lines from the top
)

// longestFiles is the limit for a file of each kind.
var longestFiles = map[string]int{
	"Go": 400, "Go tests": 500, "templates": 150, "scripts": 300, "styles": 300, "SQL": 350, "prose": 400,
}

// usualSizes are the most that half and nine tenths of a kind may have. They
// bite when many grow a little, where no single one is over its limit.
var usualSizes = map[string]struct{ median, p90 int }{
	"Go": {120, 300}, "Go functions": {12, 30}, "Go tests": {180, 350},
}

// checkSizes prints how long the hand-written files and functions are and
// fails for those over the limit.
func checkSizes(_ context.Context, tree *sourceTree) error {
	files, err := tree.listFiles()
	if err != nil {
		return err
	}
	lengths := map[string][]int{}
	var tooLong []error
	for _, name := range files {
		kind := classifyFile(name)
		if kind == "" {
			continue
		}
		text, err := fs.ReadFile(os.DirFS(tree.root), name)
		if err != nil {
			return err
		}
		if isGenerated(text) {
			continue
		}
		lines := strings.Count(string(text), "\n")
		lengths[kind] = append(lengths[kind], lines)
		if most := longestFiles[kind]; lines > most && !givesReason(text) {
			tooLong = append(tooLong, fmt.Errorf("%s has %d lines, over %d, and no \"Long:\" at its top to say why", name, lines, most))
		}
		if kind == "Go" {
			functions, problems := measureFunctions(name, text)
			lengths["Go functions"] = append(lengths["Go functions"], functions...)
			tooLong = append(tooLong, problems...)
		}
	}
	tree.printLengths(lengths)
	return errors.Join(append(tooLong, checkUsualSizes(lengths)...)...)
}

// checkUsualSizes returns a complaint for each kind whose usual size has grown
// over its limit.
func checkUsualSizes(lengths map[string][]int) []error {
	var grown []error
	for _, kind := range slices.Sorted(maps.Keys(usualSizes)) {
		most, all := usualSizes[kind], lengths[kind]
		if len(all) == 0 {
			continue
		}
		if median, p90 := quantile(all, 50), quantile(all, 90); median > most.median || p90 > most.p90 {
			grown = append(grown, fmt.Errorf("%s have a median of %d and a p90 of %d lines, over %d and %d", kind, median, p90, most.median, most.p90))
		}
	}
	return grown
}

// classifyFile groups a file by what it is; empty for what is not written by hand or
// not meant to be read through.
func classifyFile(name string) string {
	if strings.Contains("/"+name, "/testdata/") || strings.Contains("/"+name, "/vendor/") || strings.HasPrefix(name, testOutput+"/") {
		return ""
	}
	if strings.HasSuffix(name, "_test.go") {
		return "Go tests"
	}
	return map[string]string{
		".go": "Go", ".templ": "templates", ".js": "scripts", ".css": "styles", ".sql": "SQL", ".md": "prose",
	}[path.Ext(name)]
}

// isGenerated follows Go's convention for generated files, which sqlc and
// templ keep too.
func isGenerated(text []byte) bool {
	for line := range strings.SplitSeq(firstLines(text, 5), "\n") {
		if strings.HasPrefix(line, "// Code generated ") && strings.HasSuffix(line, "DO NOT EDIT.") {
			return true
		}
	}
	return false
}

func givesReason(text []byte) bool {
	for line := range strings.SplitSeq(firstLines(text, reasonWithin), "\n") {
		if strings.HasPrefix(strings.TrimLeft(line, "/*-#<! "), "Long: ") {
			return true
		}
	}
	return false
}

// firstLines returns a text's first lines.
func firstLines(text []byte, lines int) string {
	all := strings.SplitN(string(text), "\n", lines+1)
	return strings.Join(all[:min(lines, len(all))], "\n")
}

func (t *sourceTree) printLengths(lengths map[string][]int) {
	t.printLine("   %-14s %6s %7s %5s %5s", "lines", "count", "median", "p90", "max")
	for _, kind := range []string{"Go", "Go functions", "Go tests", "templates", "scripts", "styles", "SQL", "prose"} {
		if all := lengths[kind]; len(all) > 0 {
			t.printLine("   %-14s %6d %7d %5d %5d", kind, len(all), quantile(all, 50), quantile(all, 90), slices.Max(all))
		}
	}
}

// quantile is the smallest value that at least so many in a hundred do not
// exceed.
func quantile(values []int, hundredths int) int {
	sorted := slices.Sorted(slices.Values(values))
	rank := (len(sorted)*hundredths + 99) / 100
	return sorted[max(rank, 1)-1]
}
