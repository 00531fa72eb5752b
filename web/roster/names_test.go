package roster

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"breakwright/internal/store"
	"breakwright/internal/table"
)

func TestReadNames(t *testing.T) {
	long := strings.Repeat("é", 120)
	for pasted, want := range map[string][]store.NewStudent{
		"Pip":                          {{Name: "Pip"}},
		"\n  Pip \r\n\r\n\tNoor\t\r\n": {{Name: "Pip"}, {Name: "Noor"}},
		"Pip, left\nNoor;R\nZé\tl":     {{Name: "Pip", Side: table.Left}, {Name: "Noor", Side: table.Right}, {Name: "Zé", Side: table.Left}},
		"Marsh, Odile":                 {{Name: "Marsh, Odile"}},
		"Marsh, Odile, RIGHT ":         {{Name: "Marsh, Odile", Side: table.Right}},
		"Pip,\nNoor;\t":                {{Name: "Pip"}, {Name: "Noor"}},
		"1. Pip Marsh\n2) Noor Vale, lefty\n#3 - Zé":        {{Name: "Pip Marsh"}, {Name: "Noor Vale", Side: table.Left}, {Name: "Zé"}},
		"12\tOdile\tright\n13;Bram;;":                       {{Name: "Odile", Side: table.Right}, {Name: "Bram"}},
		"• Pip (L)\n- Noor (righty)":                        {{Name: "Pip", Side: table.Left}, {Name: "Noor", Side: table.Right}},
		"Pip (the elder)\n8 Ball Bob":                       {{Name: "Pip (the elder)"}, {Name: "8 Ball Bob"}},
		"1 Pip\n2 Noor, right-handed\n3 Zé; left hander":    {{Name: "Pip"}, {Name: "Noor", Side: table.Right}, {Name: "Zé", Side: table.Left}},
		"Juno Vale lefty\nJuno R\nLeft\nMarsh, Odile right": {{Name: "Juno Vale", Side: table.Left}, {Name: "Juno R"}, {Name: "Left"}, {Name: "Marsh, Odile", Side: table.Right}},
		"4 Pip\n  7 Noor\n\n12. Zé":                         {{Name: "Pip"}, {Name: "Noor"}, {Name: "Zé"}},
		"8 Ball Bob":                                        {{Name: "8 Ball Bob"}},
		"Olga Vale - left\nPer Dahl, southpaw\nZé – R":      {{Name: "Olga Vale", Side: table.Left}, {Name: "Per Dahl", Side: table.Left}, {Name: "Zé – R"}},
		"X\rY":                      {{Name: "X"}, {Name: "Y"}},
		"#3 Zé\n#4\tPip":            {{Name: "Zé"}, {Name: "Pip"}},
		"🎱🧑‍🎓, l":                   {{Name: "🎱🧑‍🎓", Side: table.Left}},
		long + ", r":                {{Name: long, Side: table.Right}},
		"<script>alert(1)</script>": {{Name: "<script>alert(1)</script>"}},
	} {
		got, problems := readStudentNames(pasted)
		if len(problems) > 0 || !slices.Equal(got, want) {
			t.Errorf("%q: %v, %v, want %v", pasted, got, problems, want)
		}
	}
}

func TestReadNamesSaysWhichLine(t *testing.T) {
	for pasted, want := range map[string]string{
		"":                                   "write or paste at least one name",
		" \n\t\n":                            "write or paste at least one name",
		"Pip\n\n" + strings.Repeat("x", 200): "line 3: that name has 200 letters; 120 is the most",
		"Pip; middle":                        "line 1: “middle” is no break side; write left or right, or leave it out",
		"Pip\nNoor\tsouth":                   "line 2: “south” is no break side; write left or right, or leave it out",
		", left":                             "line 1: give it a name",
		"a\x00b":                             "line 1: a name is one line of letters and signs; something in it is neither",
		"Pip;" + strings.Repeat("y", 99):     "line 1: “" + strings.Repeat("y", 30) + "…” is no break side; write left or right, or leave it out",
		strings.Repeat("Pip\n", 301):         "these are 301 names; add at most 300 at a time",
	} {
		_, problems := readStudentNames(pasted)
		if len(problems) != 1 || problems.MessageFor("names") != want {
			t.Errorf("%.40q: %v, want %q", pasted, problems, want)
		}
	}
	if _, problems := readStudentNames("a;b\n\nc;d"); len(problems) != 2 {
		t.Errorf("every line is named: %v", problems)
	}
}

func TestRepeated(t *testing.T) {
	members := []store.Person{{Name: "Odile"}, {Name: "Bram  de Wit"}}
	var adding []store.NewStudent
	for _, name := range []string{"ODILE", "bram de wit", "Odile", "Pip", "pip", "PIP", "Noor"} {
		adding = append(adding, store.NewStudent{Name: name})
	}
	there, twice := findRepeated(adding, members)
	if got := fmt.Sprint(there, twice); got != "[ODILE bram de wit] [pip]" {
		t.Error(got)
	}
}

// Whatever is pasted, each line that is not blank becomes a student or a
// problem, and what becomes a student the store will take.
func FuzzReadNames(f *testing.F) {
	f.Add("Pip, left\n\nNoor;x\t\r\n,")
	f.Fuzz(func(t *testing.T, pasted string) {
		students, problems := readStudentNames(pasted)
		if len(students) == 0 && len(problems) == 0 {
			t.Fatalf("%q was dropped without a word", pasted)
		}
		for _, s := range students {
			if len(problems) == 0 && (s.Name == "" || s.Name != strings.TrimSpace(s.Name)) {
				t.Fatalf("%q gives the name %q", pasted, s.Name)
			}
		}
	})
}
