package main

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const mutatedSource = `package p

import "fmt"

const fewest = 3

type limits struct{ most [2]int }

func (l *limits) isPast(n int, x float64) bool {
	room := make([]int, 7)
	return n > 5 && x < -0.5 || len(room) == 0 || fmt.Sprint("4") == ""
}
`

func TestListMutants(t *testing.T) {
	all, err := listMutants("p/p.go", []byte(mutatedSource))
	if err != nil {
		t.Fatal(err)
	}
	var changes []string
	for _, m := range all {
		changes = append(changes, m.function+" "+m.was+" "+m.is)
		changed := string(m.apply([]byte(mutatedSource)))
		if len(changed) != len(mutatedSource)-len(m.was)+len(m.is) || !strings.HasPrefix(mutatedSource[m.offset:], m.was) || !strings.HasPrefix(changed[m.offset:], m.is) {
			t.Errorf("%s makes %s", m.key(), changed)
		}
	}
	slices.Sort(changes)
	want := []string{
		" 3 4", "limits.isPast && ||", "limits.isPast - +", "limits.isPast 0 1", "limits.isPast 0.5 0.625", "limits.isPast 5 6",
		"limits.isPast < <=", "limits.isPast == !=", "limits.isPast == !=", "limits.isPast > >=", "limits.isPast || &&", "limits.isPast || &&",
	}
	if !slices.Equal(changes, want) {
		t.Errorf("the mutants are %q, want %q", changes, want)
	}
	if _, err := listMutants("p.go", []byte("package")); err == nil {
		t.Error("a file that does not parse has mutants")
	}
}

func TestSampleMutants_IsTheSameEachTimeAndInOrder(t *testing.T) {
	all := make([]mutant, 500)
	for i := range all {
		all[i].offset = i
	}
	sample := sampleMutants(all, 100)
	inOrder := slices.IsSortedFunc(sample, func(a, b mutant) int { return a.offset - b.offset })
	if len(sample) != 100 || !inOrder || !slices.Equal(sample, sampleMutants(all, 100)) {
		t.Errorf("%d mutants, in order %v", len(sample), inOrder)
	}
	if len(sampleMutants(all, 0)) != 500 || len(sampleMutants(all, 900)) != 500 {
		t.Error("0 and more than there are mean all")
	}
}

// writeModule writes a module of one package p with a test.
func writeModule(t *testing.T, source, test string) *sourceTree {
	t.Helper()
	root := t.TempDir()
	for name, text := range map[string]string{"go.mod": "module mutated\n\ngo 1.26\n", "p/p.go": source, "p/p_test.go": test} {
		path := filepath.Join(root, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return &sourceTree{root: root}
}

// A package whose test looks at one of its two limits: the other limit's mutants
// survive, unless a reason is given.
func TestMutate_CountsWhatTheTestsNotice(t *testing.T) {
	tree := writeModule(t,
		"package p\n\nfunc isHigh(n int) bool { return n > 5 }\n\nfunc isLow(n int) bool { return n < 2 }\n",
		"package p\n\nimport \"testing\"\n\nfunc TestHigh(t *testing.T) {\n\tif isHigh(5) || !isHigh(6) {\n\t\tt.Error(\"wrong\")\n\t}\n}\n")
	const low = "p/p.go | isLow | func isLow(n int) bool { return n < 2 } | "
	p := mutatedPackage{folder: "p"}
	var out bytes.Buffer
	tree.out = &out
	err := p.mutate(t.Context(), tree, 0, map[string]string{low + "2 → 3": "nobody asks"})
	if err == nil || !strings.Contains(err.Error(), "notice 67 %") {
		t.Errorf("%v, want two of three noticed", err)
	}
	if text := out.String(); !strings.Contains(text, "survived: "+low+"< → <=\n") || !strings.Contains(text, "2 of 3 mutants killed (67 %), 1 survive for a reason") {
		t.Errorf("it says\n%s", text)
	}
	err = p.mutate(t.Context(), tree, 0, map[string]string{low + "2 → 3": "nobody asks", low + "< → <=": "nor this"})
	if err != nil {
		t.Errorf("with a reason for each survivor: %v", err)
	}
}

const wovenSource = `package p

type mph float64

const slowest = 12

var words = [2]string{"slow", "fast"}

func isFast(v, wind mph) bool {
	return v > 20.5 && v != 30 && (wind >= -0.5 ||
		v <= 25 && wind < -2)
}

func word(v mph) string {
	if v == slowest {
		return words[0]
	}
	return words[1]
}
`

const wovenTest = `package p

import "testing"

func TestIsFast(t *testing.T) {
	for _, c := range []struct {
		v, wind mph
		fast    bool
	}{
		{20.5, 0, false}, {20.6, 0, true}, {30, 0, false}, {31, 0, true}, {21, -0.5, true}, {21, -0.6, false}, {21, 0.55, true},
		{26, -0.55, false}, {25, -3, true}, {26, -3, false}, {25.5, -3, false}, {24, -2, false}, {24, -2.5, true},
	} {
		if isFast(c.v, c.wind) != c.fast {
			t.Errorf("%v", c)
		}
	}
}

func TestWord(t *testing.T) {
	if len(words) != 2 || word(slowest) != "slow" || word(13) != "fast" || slowest != 12 {
		t.Error("wrong")
	}
}
`

// Each mutant does in the woven package what it does alone. A constant, an array's length
// and an index are not woven: of them the compiler judges first.
func TestMutantJudge_WakesOneMutantAtATime(t *testing.T) {
	tree, p := writeModule(t, wovenSource, wovenTest), mutatedPackage{folder: "p"}
	all, err := p.listMutants(tree)
	if err != nil {
		t.Fatal(err)
	}
	judge, err := newMutantJudge(t.Context(), tree, p, all)
	if err != nil {
		t.Fatal(err)
	}
	defer judge.close()
	for i, m := range all {
		alone := strings.Contains(m.code, "slowest = 12") || strings.Contains(m.code, "[2]string") || strings.Contains(m.code, "words[")
		if judge.woven[i] == alone {
			t.Errorf("%s is woven: %v", m.key(), judge.woven[i])
		}
		want := mutantKilled
		if m.code == "return words[1]" {
			want = mutantUnbuilt // there is no third word
		}
		if outcome, err := judge.judge(t.Context(), i); err != nil || outcome != want {
			t.Errorf("%s: %s (%v), want %s", m.key(), outcome, err, want)
		}
	}
}

func TestChooseMutated(t *testing.T) {
	if all, err := chooseMutated("all"); err != nil || len(all) != len(mutatedPackages) {
		t.Errorf("all are %d (%v)", len(all), err)
	}
	if two, err := chooseMutated("web/sync,internal/drill"); err != nil || len(two) != 2 || two[0].folder != "web/sync" {
		t.Errorf("two are %v (%v)", two, err)
	}
	if _, err := chooseMutated("internal/dril"); err == nil || !strings.Contains(err.Error(), `"internal/dril"`) {
		t.Errorf("a misspelt package: %v", err)
	}
}

// Each reason belongs to a mutant that there still is.
func TestSurvivors_AreThere(t *testing.T) {
	tree := &sourceTree{root: "../.."}
	reasons, err := readSurvivors("survivors.txt")
	if err != nil {
		t.Fatal(err)
	}
	there := map[string]bool{}
	for _, p := range mutatedPackages {
		all, err := p.listMutants(tree)
		if err != nil || len(all) == 0 {
			t.Fatalf("%s: %d mutants (%v)", p.folder, len(all), err)
		}
		for _, m := range all {
			there[m.key()] = true
		}
	}
	for key := range reasons {
		if !there[key] {
			t.Errorf("there is no such mutant any more: %s", key)
		}
	}
}
