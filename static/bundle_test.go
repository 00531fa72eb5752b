package static

import (
	"strings"
	"testing"
)

func TestJoin_LosesNothingButWordsForReaders(t *testing.T) {
	for whole, parts := range bundledScripts {
		text, err := bundleScripts(parts)
		if err != nil {
			t.Fatal(err)
		}
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
				if bare := strings.TrimSpace(line); !strings.HasPrefix(bare, "//") && !strings.Contains(string(text), bare) {
					t.Errorf("%s lost of %s: %s", whole, part, line)
				}
			}
		}
		if _, found := filesByURL[URL(whole)]; !found {
			t.Errorf("%s is not served", whole)
		}
	}
}
