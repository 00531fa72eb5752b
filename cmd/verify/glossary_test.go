package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// glossaryWord is a row of the contributor guide's glossary: a word, what it
// means, and the packages that have a type of that name.
type glossaryWord struct {
	meaning  string
	packages []string
}

// typeNames holds the packages' types by package.
type typeNames map[string][]string

// inTrial is the one use of a retired word: a change that is tried out is in trial.
var inTrial = regexp.MustCompile(`^inTrial|InTrial`)

// One word has one meaning: a type that several packages have stands in the
// glossary with all of them, and words that meant too much are not used again.
func TestGlossary_OneWordOneMeaning(t *testing.T) {
	guide, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	words, retired := readGlossary(string(guide))
	names := readTypeNames(t, "../..")
	if len(words) == 0 || len(retired) == 0 || len(names) < 50 {
		t.Fatalf("read %d words, %d retired words and %d packages", len(words), len(retired), len(names))
	}
	for _, problem := range compareGlossary(words, retired, names) {
		t.Error(problem)
	}
	walkHandwritten(t, "../..", func(_ string, path string, file *ast.File) {
		for _, declared := range listDeclared(file) {
			for _, problem := range listRetired(retired, path+": "+declared, declared) {
				t.Error(problem)
			}
		}
	})
}

// Every package has its place in the guide's table of the house, by its path or by
// its path below internal or web.
func TestGuide_NamesEveryPackage(t *testing.T) {
	guide, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, house, _ := strings.Cut(string(guide), "\n## The house\n")
	house, _, _ = strings.Cut(house, "\n## ")
	for name := range readTypeNames(t, "../..") {
		_, inside, _ := strings.Cut(name, "/")
		if !strings.Contains(house, "`"+name+"`") && !strings.Contains(house, "`"+inside+"`") {
			t.Errorf("%s has no row in the table of the house in DEVELOPERS.md", name)
		}
	}
}

func TestGlossary_FindsWhatIsWrong(t *testing.T) {
	words := map[string]glossaryWord{"shot": {"a shot", []string{"internal/drill", "internal/leave"}}}
	retired := map[string]bool{"keeper": true}
	for want, names := range map[string]typeNames{
		"":                  {"internal/drill": {"Shot"}, "internal/leave": {"Shot", "line"}, "web/live": {"line"}},
		"internal/fit.Shot": {"internal/drill": {"Shot"}, "internal/leave": {"Shot"}, "internal/fit": {"Shot"}},
		"internal/leave":    {"internal/drill": {"Shot"}},
		"Cause":             {"internal/drill": {"Shot", "Cause"}, "internal/leave": {"Shot"}, "internal/fit": {"cause"}},
		"by a capital":      {"internal/drill": {"Shot", "Rule", "rule"}, "internal/leave": {"Shot"}},
		"HashKeeper":        {"internal/drill": {"Shot", "HashKeeper"}, "internal/leave": {"Shot"}},
		"web/keeper":        {"internal/drill": {"Shot"}, "internal/leave": {"Shot"}, "web/keeper": nil},
	} {
		problems := compareGlossary(words, retired, names)
		if want == "" && len(problems) == 0 || want != "" && len(problems) == 1 && strings.Contains(problems[0], want) {
			continue
		}
		t.Errorf("found %q, want one with %q", problems, want)
	}
}

func TestListDeclared_FindsEveryName(t *testing.T) {
	file, err := parser.ParseFile(token.NewFileSet(), "", `package p
type T struct{ field int }
const constant = 1
func (method T) M(parameter int) (result int) {
	var variable int
	local, _ := 1, 2
	for key, value := range []int{} {
		local = key
	}
	return func(inner int) int { return inner }(local)
}`, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	got := listDeclared(file)
	slices.Sort(got)
	if want := []string{"M", "T", "_", "constant", "field", "inner", "key", "local", "method", "parameter", "result", "value", "variable"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

var (
	backticked = regexp.MustCompile("`([^`]+)`")
	camelWord  = regexp.MustCompile(`[A-Z]?[a-z0-9]+|[A-Z]+`)
)

// readGlossary reads the rows "| word | meaning | `package`, `package` |" of the
// section Glossary, and the words of its line "Not used:", in lower case.
func readGlossary(guide string) (words map[string]glossaryWord, retired map[string]bool) {
	words, retired = map[string]glossaryWord{}, map[string]bool{}
	_, section, _ := strings.Cut(guide, "\n## Glossary\n")
	section, _, _ = strings.Cut(section, "\n## ")
	for line := range strings.Lines(section) {
		if list, ok := strings.CutPrefix(line, "Not used:"); ok {
			for _, found := range backticked.FindAllStringSubmatch(list, -1) {
				retired[found[1]] = true
			}
		}
		cells := strings.Split(strings.Trim(strings.TrimSpace(line), "|"), "|")
		if len(cells) != 3 || !strings.Contains(cells[2], "`") {
			continue
		}
		row := glossaryWord{meaning: strings.TrimSpace(cells[1])}
		for _, found := range backticked.FindAllStringSubmatch(cells[2], -1) {
			row.packages = append(row.packages, found[1])
		}
		words[strings.TrimSpace(cells[0])] = row
	}
	return words, retired
}

// readTypeNames reads the types of the packages written by hand, tests left out.
func readTypeNames(t *testing.T, root string) typeNames {
	t.Helper()
	names := typeNames{}
	walkHandwritten(t, root, func(folder, _ string, file *ast.File) {
		names[folder] = append(names[folder], listTypes(file)...)
	})
	return names
}

// walkHandwritten visits the files that are written by hand, tests left out, each with
// its folder and path below the root.
func walkHandwritten(t *testing.T, root string, visit func(folder, path string, file *ast.File)) {
	t.Helper()
	for _, folder := range []string{"cmd", "internal", "web", "sql", "static"} {
		err := filepath.WalkDir(filepath.Join(root, folder), func(path string, entry os.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if entry.IsDir() && (entry.Name() == "testdata" || entry.Name() == "tools") {
				return filepath.SkipDir
			}
			if filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") {
				return nil
			}
			text, err := os.ReadFile(path)
			if err != nil || isGenerated(text) {
				return err
			}
			file, err := parser.ParseFile(token.NewFileSet(), path, text, parser.SkipObjectResolution)
			name, _ := filepath.Rel(root, path)
			if err == nil {
				visit(filepath.ToSlash(filepath.Dir(name)), filepath.ToSlash(name), file)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

// listTypes names the types of a file.
func listTypes(file *ast.File) (names []string) {
	for _, declared := range file.Decls {
		group, ok := declared.(*ast.GenDecl)
		if !ok {
			continue
		}
		for _, spec := range group.Specs {
			if declaredType, ok := spec.(*ast.TypeSpec); ok {
				names = append(names, declaredType.Name.Name)
			}
		}
	}
	return names
}

// listDeclared names all that a file declares: functions, methods, types, constants,
// fields, parameters and variables, the local ones too.
func listDeclared(file *ast.File) (names []string) {
	add := func(declared ...*ast.Ident) {
		for _, name := range declared {
			names = append(names, name.Name)
		}
	}
	addNames := func(expressions ...ast.Expr) {
		for _, e := range expressions {
			if name, ok := e.(*ast.Ident); ok {
				add(name)
			}
		}
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch d := n.(type) {
		case *ast.FuncDecl:
			add(d.Name)
		case *ast.TypeSpec:
			add(d.Name)
		case *ast.ValueSpec:
			add(d.Names...)
		case *ast.Field:
			add(d.Names...)
		case *ast.RangeStmt:
			addNames(d.Key, d.Value)
		case *ast.AssignStmt:
			if d.Tok == token.DEFINE {
				addNames(d.Lhs...)
			}
		}
		return true
	})
	return names
}

// compareGlossary returns what is wrong: names that need a row, rows that are no
// longer true, names that differ by a capital, and retired words.
func compareGlossary(words map[string]glossaryWord, retired map[string]bool, names typeNames) (problems []string) {
	owners, exported := map[string][]string{}, map[string]string{}
	for _, name := range slices.Sorted(maps.Keys(names)) {
		problems = append(problems, listRetired(retired, name, filepath.Base(name))...)
		spelled := map[string]string{}
		for _, declared := range names[name] {
			problems = append(problems, listRetired(retired, name+"."+declared, declared)...)
			word := strings.ToLower(declared)
			if other := spelled[word]; other != "" && other != declared {
				problems = append(problems, fmt.Sprintf("%s: %s and %s differ by a capital alone", name, other, declared))
			}
			spelled[word] = declared
			if ast.IsExported(declared) {
				exported[word] = declared
			}
		}
		for word := range spelled {
			owners[word] = append(owners[word], name)
		}
	}
	return append(problems, compareOwners(words, owners, exported)...)
}

// compareOwners compares the rows with the packages that have a type of the name.
// Names that no package exports may be used by several: they are never seen
// together.
func compareOwners(words map[string]glossaryWord, owners map[string][]string, exported map[string]string) (problems []string) {
	for _, word := range slices.Sorted(maps.Keys(owners)) {
		row, known := words[word]
		if !known && len(owners[word]) > 1 && exported[word] != "" {
			problems = append(problems, fmt.Sprintf("%s is a type in %s: one word has one meaning, so rename it or give it a row in the glossary of DEVELOPERS.md", exported[word], strings.Join(owners[word], " and ")))
		}
		for _, owner := range owners[word] {
			if known && !row.covers(owner) {
				problems = append(problems, fmt.Sprintf("%s.%s is not in the glossary's row for that word (%s): rename it or add it", owner, exported[word], row.meaning))
			}
		}
	}
	for _, word := range slices.Sorted(maps.Keys(words)) {
		for _, owner := range words[word].packages {
			if owner != "web/*" && !slices.Contains(owners[word], owner) {
				problems = append(problems, fmt.Sprintf("the glossary has %s in %s, which has no such type", word, owner))
			}
		}
	}
	return problems
}

func (w glossaryWord) covers(owner string) bool {
	return slices.Contains(w.packages, owner) || strings.HasPrefix(owner, "web/") && slices.Contains(w.packages, "web/*")
}

func listRetired(retired map[string]bool, where, name string) (problems []string) {
	for _, word := range camelWord.FindAllString(inTrial.ReplaceAllString(name, ""), -1) {
		if retired[strings.ToLower(word)] {
			problems = append(problems, fmt.Sprintf("%s: the word %q meant too much and is not used", where, strings.ToLower(word)))
		}
	}
	return problems
}
