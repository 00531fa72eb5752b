package main

import (
	"maps"
	"strings"
	"testing"
)

func TestCheckPortable(t *testing.T) {
	files := map[string]string{
		"go.mod":         "module x\n\ngo 1.26\n",
		"web/web.go":     "package web\n\nimport \"os\"\n\nvar Name = os.DevNull + suffix()\n",
		"web/unix.go":    "//go:build unix\n\npackage web\n\nfunc suffix() string { return \"\" }\n",
		"web/windows.go": "//go:build windows\n\npackage web\n\nfunc suffix() string { return \"\" }\n",
		"cmd/main.go":    "package main\n\nimport \"x/web\"\n\nfunc main() { println(web.Name) }\n",
	}
	tree, _ := newTree(t, files)
	if err := checkPortable(t.Context(), tree); err != nil {
		t.Errorf("nothing is wrong, and yet: %v", err)
	}
	for fault, change := range map[string]struct{ file, text, system string }{
		"a missing function":          {"web/windows.go", "//go:build windows\n\npackage web\n", "windows"},
		"another type, in a body":     {"web/unix.go", "//go:build unix\n\npackage web\n\nfunc suffix() string { return 1 }\n", "darwin"},
		"a syntax error":              {"web/windows.go", "//go:build windows\n\npackage web\n\nfunc suffix( string\n", "windows"},
		"a package that is not there": {"web/windows.go", "//go:build windows\n\npackage web\n\nimport _ \"x/nowhere\"\n\nfunc suffix() string { return \"\" }\n", "windows"},
	} {
		broken := maps.Clone(files)
		broken[change.file] = change.text
		tree, _ := newTree(t, broken)
		if err := checkPortable(t.Context(), tree); err == nil || !strings.HasPrefix(err.Error(), change.system+": ") {
			t.Errorf("%s on %s: %v", fault, change.system, err)
		}
	}
}
