package main

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// mayImport says who may import whom inside the house. The key is a package
// below the module, or a folder with everything in it ("web/"). Nothing may
// import what is not named here; only cmd may import everything.
var mayImport = map[string][]string{
	"internal/table":               {},
	"internal/say":                 {"internal/table"},
	"internal/rack":                {"internal/table"},
	"internal/drill":               {"internal/table", "internal/rack"},
	"internal/library":             {"internal/table", "internal/rack", "internal/drill"},
	"internal/coaching":            {"internal/table", "internal/rack", "internal/drill"},
	"internal/calendar":            {},
	"internal/shorthand":           {"internal/table", "internal/say", "internal/rack", "internal/drill"},
	"internal/memo":                {},
	"internal/vector":              {},
	"internal/evidence":            {"internal/memo"},
	"internal/breaklog":            {"internal/table", "internal/rack", "internal/drill"},
	"internal/breaksim":            {"internal/table", "internal/rack"},
	"internal/leave":               {"internal/table", "internal/rack", "internal/drill"},
	"internal/rackplan":            {"internal/table", "internal/rack", "internal/drill", "internal/leave"},
	"internal/rackplan/compute":    {"internal/table", "internal/rack", "internal/drill", "internal/breaksim", "internal/leave", "internal/rackplan"},
	"internal/response":            {"internal/table", "internal/rack", "internal/drill", "internal/vector"},
	"internal/response/train":      {"internal/table", "internal/rack", "internal/drill", "internal/breaksim", "internal/leave", "internal/response"},
	"internal/belief":              {"internal/table", "internal/rack", "internal/drill", "internal/memo", "internal/response", "internal/vector"},
	"internal/advice":              {"internal/table", "internal/rack", "internal/drill", "internal/evidence", "internal/response", "internal/belief", "internal/say"},
	"internal/progress":            {"internal/table", "internal/evidence"},
	"internal/rehearsal":           {"internal/table", "internal/rack", "internal/drill", "internal/evidence", "internal/leave", "internal/belief", "internal/advice", "internal/response", "internal/breaksim"},
	"internal/whatif":              {"internal/table", "internal/rack", "internal/drill", "internal/breaksim", "internal/evidence"},
	"internal/density":             {"internal/table", "internal/evidence"},
	"internal/fit":                 {"internal/table", "internal/rack", "internal/drill", "internal/breaksim"},
	"internal/account":             {},
	"internal/localpg":             {},
	"internal/localpg/localpgtest": {"internal/localpg"},
	"sql":                          {},
	"static":                       {},
	"internal/store":               {"internal/table", "internal/rack", "internal/drill", "internal/coaching", "internal/account", "internal/say", "internal/store/", "sql"},
	"internal/store/storetest":     {"internal/", "sql"},
	"internal/setreview":           {"internal/table", "internal/drill", "internal/coaching", "internal/advice", "internal/say", "internal/store"},
	"internal/demo":                {"internal/"},
	"web":                          {"internal/", "web/", "static"},
	"web/":                         {"internal/", "web", "web/", "static"},
	"cmd/":                         {"internal/", "web", "web/", "static", "sql", "cmd/"},
}

// standardOnly are the packages that could be used alone: the standard library
// and what is listed.
var standardOnly = map[string][]string{
	"internal/table": nil, "internal/say": nil, "internal/rack": nil, "internal/drill": nil, "internal/breaklog": nil,
	"internal/breaksim": nil, "internal/leave": nil, "internal/rackplan": nil, "internal/whatif": nil, "internal/density": nil, "internal/fit": nil, "internal/advice": nil, "internal/library": nil, "internal/shorthand": nil, "internal/calendar": nil, "internal/coaching": nil,
	"internal/memo": nil, "internal/response": nil,
	"internal/evidence": {"gonum.org/v1/gonum/mathext"},
	"internal/vector":   {"golang.org/x/sys/cpu"},                                                                  // whether the processor does eight at a time
	"internal/belief":   {"gonum.org/v1/gonum/blas/blas32", "gonum.org/v1/gonum/floats", "gonum.org/v1/gonum/mat"}, // sums over hands, and how a table plays is a few linear equations
}

// impureImports are what the packages above must not import: with them the same
// input could give another answer tomorrow.
var impureImports = []string{"os", "time/tzdata", "log", "log/slog", "net/http", "crypto/rand", "math/rand"}

// testOnly are imported by tests and by one another alone.
var testOnly = []string{"internal/store/storetest", "internal/localpg/localpgtest", "web/webtest", "web/browser"}

type listedPackage struct {
	ImportPath string
	Imports    []string
}

func TestImports_NoneRunsUpward(t *testing.T) {
	for _, p := range listPackages(t) {
		name := strings.TrimPrefix(p.ImportPath, "breakwright/")
		allowed, known := allowedImports(name)
		if !known {
			t.Errorf("%s has no row in the table of who may import whom", name)
			continue
		}
		for _, imported := range p.Imports {
			checkImport(t, name, imported, allowed)
		}
	}
}

func checkImport(t *testing.T, name, imported string, allowed []string) {
	t.Helper()
	if inside, ours := strings.CutPrefix(imported, "breakwright/"); ours {
		own := strings.HasPrefix(inside, name+"/")
		if !own && !slices.ContainsFunc(allowed, func(a string) bool { return entryCovers(a, inside) }) {
			t.Errorf("%s imports %s, which runs upward or sideways", name, inside)
		}
		if slices.Contains(testOnly, inside) && !slices.Contains(testOnly, name) {
			t.Errorf("%s imports %s, which is for tests", name, inside)
		}
		return
	}
	extra, pure := standardOnly[name]
	if !pure {
		return
	}
	if strings.Contains(imported, ".") && !slices.Contains(extra, imported) {
		t.Errorf("%s imports %s; it stands on the standard library", name, imported)
	}
	if slices.Contains(impureImports, imported) {
		t.Errorf("%s imports %s; it takes no clock, file, environment, log or chance but as arguments", name, imported)
	}
}

func allowedImports(name string) (allowed []string, known bool) {
	if allowed, known = mayImport[name]; known {
		return allowed, true
	}
	longest := ""
	for key := range mayImport {
		if (strings.HasSuffix(key, "/") || strings.HasPrefix(name, key+"/")) && entryCovers(strings.TrimSuffix(key, "/")+"/", name) && len(key) > len(longest) {
			longest = key
		}
	}
	return mayImport[longest], longest != ""
}

// entryCovers reports whether a row's entry covers a package: itself, or for one that
// ends in a slash everything in that folder.
func entryCovers(entry, name string) bool {
	return entry == name || strings.HasSuffix(entry, "/") && strings.HasPrefix(name, entry)
}

func listPackages(t *testing.T) []listedPackage {
	t.Helper()
	list := exec.Command("go", "list", "-json=ImportPath,Imports", "./...")
	list.Dir = "../.."
	out, err := list.Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var packages []listedPackage
	decoder := json.NewDecoder(strings.NewReader(string(out)))
	for {
		var p listedPackage
		err := decoder.Decode(&p)
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		packages = append(packages, p)
	}
	if len(packages) < 15 {
		t.Fatalf("only %d packages are listed", len(packages))
	}
	return packages
}
