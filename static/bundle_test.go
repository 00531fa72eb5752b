package static

import (
	"io/fs"
	"regexp"
	"strings"
	"testing"
)

func TestJoin_LosesNothingButWordsForReaders(t *testing.T) {
	for whole, parts := range bundledScripts {
		text, err := bundleScripts(parts)
		if err != nil {
			t.Fatal(err)
		}
		requireAllLines(t, whole, string(text), parts)
		if _, found := filesByURL[URL(whole)]; !found {
			t.Errorf("%s is not served", whole)
		}
	}
}

func TestReadScript_LosesNothingButWordsForReaders(t *testing.T) {
	const worker = "js/record-worker.js"
	text, err := ReadScript(worker)
	if err != nil {
		t.Fatal(err)
	}
	requireAllLines(t, worker, string(text), []string{worker})
	if strings.Contains(string(text), "\n//") {
		t.Errorf("%s is read with comments", worker)
	}
}

// requireAllLines fails the test unless a served script has every line of its parts that
// is no comment.
func requireAllLines(t *testing.T, whole, text string, parts []string) {
	t.Helper()
	for _, part := range parts {
		plain, err := ReadFile(part)
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(plain)) {
			// A text over several lines would lose its indents.
			if strings.HasPrefix(part, "js/") && strings.Count(line, "`")%2 == 1 {
				t.Errorf("%s has a text over several lines: %s", part, line)
			}
			bare := strings.TrimSpace(line)
			if strings.HasPrefix(bare, "//") || (strings.HasPrefix(bare, "/**") && strings.HasSuffix(bare, "*/")) {
				continue
			}
			if strings.HasPrefix(part, "js/") {
				bare, _, _ = strings.Cut(bare, " // ")
			}
			for _, quote := range []string{`"`, "'", "`"} { // a text would be cut in two
				if strings.HasPrefix(part, "js/") && strings.Count(bare, quote)%2 == 1 && bare != strings.TrimSpace(line) {
					t.Errorf("%s has a text with the sign of a comment: %s", part, line)
				}
			}
			if !strings.Contains(text, bare+"\n") {
				t.Errorf("%s lost of %s, or has a comment of it: %s", whole, part, line)
			}
		}
	}
}

// A served stylesheet has every rule of the file, without comments. A text that
// holds the sign of a comment or the end of a line would be cut.
func TestStyles_LoseNothingButWordsForReaders(t *testing.T) {
	quoted := regexp.MustCompile(`"[^"]*"`)
	styles, err := fs.Glob(files, "css/*.css")
	if err != nil || len(styles) == 0 {
		t.Fatalf("%d styles (%v)", len(styles), err)
	}
	for _, name := range styles {
		plain, err := ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		bare := styleComment.ReplaceAllString(string(plain), "")
		for _, text := range quoted.FindAllString(bare, -1) {
			if strings.ContainsAny(text, "\n*") {
				t.Errorf("%s has a text that would be cut: %s", name, text)
			}
		}
		served := string(filesByURL[URL(name)].plain)
		if strings.Contains(served, "/*") {
			t.Errorf("%s is served with comments", name)
		}
		squeeze := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if name != typefaceStyle && squeeze(served) != squeeze(bare) {
			t.Errorf("%s is served with other rules", name)
		}
	}
}
