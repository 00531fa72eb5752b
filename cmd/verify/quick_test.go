package main

import (
	"os/exec"
	"strings"
	"testing"
)

// browserPath is the package that opens a browser.
const browserPath = "breakwright/web/browser"

// A file that opens a browser says "//go:build !quick" at its top.
func TestQuick_OpensNoBrowser(t *testing.T) {
	const imports = `{{.ImportPath}}:{{range .TestImports}} {{.}}{{end}}{{range .XTestImports}} {{.}}{{end}}`
	quick, all := listLines(t, "-tags=quick", "-f", imports), listLines(t, "-f", imports)
	for _, line := range quick {
		name, imported, _ := strings.Cut(line, ":")
		if strings.Contains(imported+" ", " "+browserPath+" ") {
			t.Errorf("%s opens a browser in a quick run: its file wants //go:build !quick", name)
		}
		if name == browserPath && imported != "" {
			t.Errorf("%s tests itself in a quick run", name)
		}
	}
	// The check would see one: the full run has some.
	if full := strings.Join(all, "\n"); !strings.Contains(full, " "+browserPath) {
		t.Error("no test opens a browser at all")
	}
}

func listLines(t *testing.T, arguments ...string) []string {
	t.Helper()
	list := exec.Command("go", append(append([]string{"list"}, arguments...), "./...")...)
	list.Dir = "../.."
	out, err := list.Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	return strings.Split(strings.TrimSpace(string(out)), "\n")
}
