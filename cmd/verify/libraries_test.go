package main

import (
	"os"
	"regexp"
	"strings"
	"testing"
)

// directModule is a line of go.mod that names a module we import ourselves.
var directModule = regexp.MustCompile(`(?m)^\t(\S+/\S+) v\S+$`)

// Every library that is imported says in the contributor guide what it is for.
func TestLibraries_EachHasItsLine(t *testing.T) {
	modules, err := os.ReadFile("../../go.mod")
	if err != nil {
		t.Fatal(err)
	}
	guide, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	found := directModule.FindAllStringSubmatch(string(modules), -1)
	if len(found) == 0 {
		t.Fatal("go.mod names no module")
	}
	inUse := map[string]bool{}
	for _, module := range found {
		inUse[module[1]] = true
		if !strings.Contains(string(guide), "\n| `"+module[1]+"` | ") {
			t.Errorf("%s has no line under \"Kept libraries\" in DEVELOPERS.md", module[1])
		}
	}
	for _, row := range regexp.MustCompile("(?m)^\\| `([a-z.]+\\.[a-z]+/\\S+)` \\| ").FindAllStringSubmatch(string(guide), -1) {
		if !inUse[row[1]] {
			t.Errorf("DEVELOPERS.md has a line for %s, which go.mod does not name", row[1])
		}
	}
}
