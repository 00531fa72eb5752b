package breaklog_test

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

func openFixture(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "breaklog", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func readSets(t testing.TB, text string) []drill.Set {
	t.Helper()
	sets, err := breaklog.Read(strings.NewReader(text))
	if err != nil {
		t.Fatalf("read: %v", err)
	}
	return sets
}

func breakTime(s string) time.Time {
	moment, err := time.Parse(time.RFC3339, s)
	if err != nil {
		panic(err)
	}
	return moment.UTC()
}

// The example of the format's description, read by eye.
func TestRead_Example(t *testing.T) {
	setup := drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot())
	setup.Speed = 18
	want := []drill.Set{{
		Student: "Odile", Name: "a1", Table: "North 2", Kind: table.NineFoot(), Setup: setup,
		Breaks: []drill.Break{
			{
				Number: 1, At: breakTime("2026-03-02T18:05:00Z"), Speed: 18,
				Pocketed: []drill.Pocketed{{Ball: 8, Pocket: table.FootLeft}},
				Cue:      drill.CueEnd{How: drill.Stopped, Place: table.Place{X: -3.5, Y: 41}},
				CuePath:  drill.PathBack,
				Rest:     []drill.RestingBall{{Ball: 1, Place: table.Place{X: -20, Y: 31}}, {Ball: 2, Place: table.Place{X: 6, Y: 28}}},
				Rails:    drill.ObservedCount(6), PastString: drill.ObservedCount(3), Shot: drill.ShotOpen,
			},
			{
				Number: 2, At: breakTime("2026-03-02T18:07:10Z"), Speed: 18,
				Cue:      drill.CueEnd{How: drill.Scratched, Scratch: table.SideRight},
				WingMiss: drill.MissSideRail, Rails: drill.ObservedCount(5), PastString: drill.ObservedCount(2),
			},
		},
	}}
	if got := readSets(t, openFixture(t, "example.csv")); !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
}

func TestRead_EmptyCellsMeanTheUsual(t *testing.T) {
	set := readSets(t, openFixture(t, "paper.csv"))[0]
	want := drill.StandardSetup(rack.NineBall, table.Right, table.NineFoot())
	want.Cue.X, want.Tip, want.Speed = 17, 0, 0
	if set.Setup != want || set.Kind != table.NineFoot() || set.Table != "" {
		t.Errorf("setup %+v on %v, want %+v", set.Setup, set.Kind, want)
	}
	made := 0
	for _, b := range set.Breaks {
		if b.WingMade(set.Setup) {
			made++
		}
	}
	if made != 2 || set.Breaks[2].Cue.How != drill.OffTable || set.Breaks[3].Cue.Scratch != table.HeadLeft {
		t.Errorf("%d wing balls made, want 2; breaks %+v", made, set.Breaks)
	}
	if b := set.Breaks[4]; b.Note != `she said "again"` || b.Rails != nil || !b.At.IsZero() || b.Speed != 0 {
		t.Errorf("unobserved cells were filled: %+v", b)
	}
	onTheString := readSets(t, "student,set,break,cue_x,cue_y,pocketed,cue\nA,1,1,0,25,,\"0,40\"\n")[0].Setup
	if onTheString.Side != table.Left || onTheString.Wing != "3L" {
		t.Errorf("from the long string the side is %s, the wing %s; want left, 3L", onTheString.Side, onTheString.Wing)
	}
}

func TestRead_AnyOrderOfRowsAndColumns(t *testing.T) {
	sets := readSets(t, openFixture(t, "evening.csv"))
	var got []string
	for _, s := range sets {
		got = append(got, s.Student+" "+s.Name)
		for i, b := range s.Breaks {
			if b.Number != i+1 {
				t.Errorf("%s %s: break %d stands at %d", s.Student, s.Name, b.Number, i+1)
			}
		}
	}
	if want := "Teodor 1, Teodor 2, Ilse 1"; strings.Join(got, ", ") != want {
		t.Fatalf("sets %v, want %s", got, want)
	}
	first := sets[0]
	if first.Kind != (table.Kind{Feet: 9, CornerMouth: 4.25, SideMouth: table.StandardSideMouth}) || first.Setup.Spot != rack.CentreOnSpot {
		t.Errorf("kind %v, spot %s", first.Kind, first.Setup.Spot)
	}
	if first.Setup.Speed != 17.3 { // the median of 17.6 and 16.9 is 17.25
		t.Errorf("speed %s, want 17.3", first.Setup.Speed)
	}
	if want := breakTime("2026-04-07T17:02:00Z"); !first.FirstBreakTime().Equal(want) || first.Breaks[0].At.Location() != time.UTC {
		t.Errorf("first at %v, want %v", first.FirstBreakTime(), want)
	}
	ilse := sets[2]
	if ilse.Setup.Game != rack.TenBall || ilse.Setup.Wing != "4R" || ilse.Breaks[1].Note != "- the rack was loose\n  on the left" {
		t.Errorf("Ilse: %+v", ilse)
	}
}

func TestRead_SetsWithoutATimeKeepTheirPlace(t *testing.T) {
	var text strings.Builder
	text.WriteString("student,set,break,at,cue_x,cue_y,pocketed,cue\n")
	for _, row := range []string{"late,1,2026-05-05T10:00:00Z", "none,1,", "early,1,2026-05-01T10:00:00Z", "middle,1,2026-05-03T10:00:00Z"} {
		text.WriteString("A," + row + ",-18,25,,\"0,40\"\n")
	}
	var got []string
	for _, s := range readSets(t, text.String()) {
		got = append(got, s.Name)
	}
	if want := "early none middle late"; strings.Join(got, " ") != want {
		t.Errorf("order %v, want %s", got, want)
	}
}

// RFC 4180, section 2, rules 1 to 7: line ends, a last line without one, quotes,
// line ends and doubled quotes inside quotes. Spaces are part of a field there;
// here they do not count outside notes.
func TestRead_RFC4180(t *testing.T) {
	want := readSets(t, "student,set,break,cue_x,cue_y,pocketed,cue,note\nAda,1,1,-18,25,,\"0,40\",x\n")
	for name, text := range map[string]string{
		"carriage returns":   "student,set,break,cue_x,cue_y,pocketed,cue,note\r\nAda,1,1,-18,25,,\"0,40\",x\r\n",
		"no last line end":   "student,set,break,cue_x,cue_y,pocketed,cue,note\nAda,1,1,-18,25,,\"0,40\",x",
		"everything quoted":  "\"student\",\"set\",\"break\",\"cue_x\",\"cue_y\",\"pocketed\",\"cue\",\"note\"\n\"Ada\",\"1\",\"1\",\"-18\",\"25\",\"\",\"0,40\",\"x\"\n",
		"byte order mark":    "\ufeffstudent,set,break,cue_x,cue_y,pocketed,cue,note\nAda,1,1,-18,25,,\"0,40\",x\n",
		"spaces round cells": "student, set,break ,cue_x,cue_y,pocketed,cue,note\nAda ,1, 1,-18, 25.0,,\"0, 40\",x\n",
		"empty rows":         "student,set,break,cue_x,cue_y,pocketed,cue,note\n\n,,,,,,,\nAda,1,1,-18,25,,\"0,40\",x\n , ,,,,,,\n",
	} {
		if got := readSets(t, text); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %+v, want %+v", name, got, want)
		}
	}
	longNote := strings.Repeat("ß", drill.MaxNote)
	for cell, note := range map[string]string{
		`"aaa","b""bb"`:    "",
		`"b""bb"`:          `b"bb`,
		"\"b\r\nbb\"":      "b\nbb",
		"\"b\nbb, ccc\"":   "b\nbb, ccc",
		"  a space before": "  a space before",
		longNote:           longNote,
	} {
		sets, err := breaklog.Read(strings.NewReader("student,set,break,cue_x,cue_y,pocketed,cue,note\nAda,1,1,-18,25,,\"0,40\"," + cell + "\n"))
		if note == "" {
			if err == nil {
				t.Errorf("%s: a cell too many was taken", cell)
			}
			continue
		}
		if err != nil || sets[0].Breaks[0].Note != note {
			t.Errorf("%s: %v, %v; want %q", cell, sets, err, note)
		}
	}
}

func TestRead_HeaderOnlyIsNoSets(t *testing.T) {
	if sets := readSets(t, "student,set,break,cue_x,cue_y,pocketed,cue\n"); len(sets) != 0 {
		t.Errorf("%d sets", len(sets))
	}
}

type failingReader struct{ err error }

func (b failingReader) Read([]byte) (int, error) { return 0, b.err }

func TestRead_AFailureToReadIsNoProblemOfTheFile(t *testing.T) {
	lost := errors.New("line lost")
	_, err := breaklog.Read(failingReader{lost})
	var problems breaklog.Problems
	if !errors.Is(err, lost) || errors.As(err, &problems) {
		t.Errorf("%v", err)
	}
}
