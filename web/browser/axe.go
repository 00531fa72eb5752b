package browser

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// The rules that axe-core is asked about, as its runOnly has them: WCAG 2.2 A and AA
// and its own best practice, and those of them that look at colours.
const (
	allRules    = `["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]`
	colourRules = `{type: "rule", values: ["color-contrast", "link-in-text-block"]}`
)

// axeRun asks axe-core for what breaks rules: one line a rule, with the elements and
// the reason.
func axeRun(rules string) string {
	return `axe.run(document, {runOnly: ` + rules + `, resultTypes: ["violations"]})
	.then((found) => found.violations.map((v) => v.id + ": " + v.help + "\n" + v.nodes.slice(0, 5).map((n) =>
  "    " + n.target.join(" ") + ": " + n.failureSummary.replace(/\s+/g, " ")).join("\n")))`
}

// CheckAccessibility fails the test for whatever axe-core finds wrong on the page as it now
// stands: the rule's id, the elements and the reason. The page's own content
// policy does not stand in the way.
func (w *Window) CheckAccessibility(t testing.TB) {
	t.Helper()
	w.checkRules(t, allRules)
}

func (w *Window) checkRules(t testing.TB, rules string) {
	t.Helper()
	w.loadAxe(t)
	found, err := chromedp.Run(w.ctx, chromedp.Evaluate[[]string](axeRun(rules), chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatalf("run axe-core: %v", err)
	}
	if len(found) == 0 {
		return
	}
	address, err := chromedp.Run(w.ctx, chromedp.Location())
	if err != nil {
		t.Fatal(err)
	}
	t.Errorf("axe-core finds on %s:\n%s", address, strings.Join(found, "\n"))
}

// loadAxe puts axe-core's half megabyte into the page, once a page.
func (w *Window) loadAxe(t testing.TB) {
	t.Helper()
	if Evaluate[bool](w, `"axe" in window`) {
		return
	}
	script, err := readAxeScript()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Run(w.ctx, chromedp.Evaluate[chromedp.Void](script+";void 0")); err != nil {
		t.Fatalf("put axe-core into the page: %v", err)
	}
}

// readAxeScript reads the script from the shared fixtures, wherever under the module the
// test runs.
func readAxeScript() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		_, err := os.Stat(filepath.Join(dir, "go.mod"))
		if err == nil {
			b, err := os.ReadFile(filepath.Join(dir, "testdata", "axe", "axe.min.js"))
			return string(b), err
		}
		up := filepath.Dir(dir)
		if !errors.Is(err, fs.ErrNotExist) || up == dir {
			return "", fmt.Errorf("find testdata/axe: no go.mod above the test: %w", err)
		}
		dir = up
	}
}
