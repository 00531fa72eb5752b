package setreview

import (
	"encoding/json"
	"fmt"
	"reflect"
	"testing"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// softAndDry is a set broken so softly that the rules ask for a change.
func softAndDry() []drill.Set {
	set := drill.Set{Student: "Odile", Name: "s1", Table: "North", Kind: table.NineFoot(), Setup: drill.StandardSetup("nine-ball", table.Left, table.NineFoot())}
	for n := range 20 {
		set.Breaks = append(set.Breaks, drill.Break{
			Number: n + 1, WingMiss: drill.MissSideRail, Rails: drill.ObservedCount(2),
			Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: 2, Y: 40}}, CuePath: drill.PathBack,
		})
	}
	return []drill.Set{set}
}

// What is said is kept as data beside the words, and the words are those that the
// data say to the student.
func TestKeptAdvice_HasWordsAndFacts(t *testing.T) {
	a := advice.Judge(softAndDry(), advice.Brief{})
	if a.Prescription == nil || len(a.Findings) < 3 {
		t.Fatalf("nothing to keep: %+v", a)
	}
	kept, err := writeAdvice(a)
	if err != nil {
		t.Fatal(err)
	}
	back, err := ReadAdvice(&store.Advice{JSON: kept})
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(statementsOf(back), statementsOf(a)) || back.Statement.Text(say.Reader{}) != a.Says || back.Prescription.Reason != a.Prescription.Reason {
		t.Errorf("kept as %s\nread as %+v", kept, back)
	}
	for i, f := range back.Findings {
		if !reflect.DeepEqual(f, a.Findings[i]) || f.Statement.Text(say.Reader{}) != f.Says {
			t.Errorf("the finding %+v comes back as %+v", a.Findings[i], f)
		}
	}
}

// Advice from before facts were kept says its words.
func TestKeptAdvice_WithoutFactsIsReadAsTold(t *testing.T) {
	a := advice.Judge(softAndDry(), advice.Brief{})
	old, err := json.Marshal(a)
	if err != nil {
		t.Fatal(err)
	}
	back, err := ReadAdvice(&store.Advice{JSON: old})
	if err != nil {
		t.Fatal(err)
	}
	coach := say.Reader{Who: say.Coach}
	if back.Statement.Text(coach) != a.Says || back.Prescription.ExpectStatement.Text(coach) != a.Prescription.Expect || len(back.Findings) != len(a.Findings) {
		t.Errorf("read as %+v", back)
	}
	for kept, want := range map[string]string{"null": "<nil>", `{"says":"The 8 fell in 3 of 10."}`: "The 8 fell in 3 of 10."} {
		f, err := ReadFinding([]byte(kept))
		if err != nil {
			t.Fatal(err)
		}
		got := fmt.Sprint(f)
		if f != nil {
			got = f.Statement.Text(coach)
		}
		if got != want {
			t.Errorf("%s is read as %q", kept, got)
		}
	}
}
