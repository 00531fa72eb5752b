package shorthand

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

var (
	nine = table.NineFoot()
	// standard racks 1-3-2-8-9-5-6-4-7: from the left the wing ball is the 8.
	standard = drill.StandardSetup(rack.NineBall, table.Left, nine)
)

func stopped(x, y table.Inches) drill.CueEnd {
	return drill.CueEnd{How: drill.Stopped, Place: table.Place{X: x, Y: y}}
}

func TestRead(t *testing.T) {
	down := func(b rack.Ball, p table.Pocket) []drill.Pocketed { return []drill.Pocketed{{Ball: b, Pocket: p}} }
	for line, want := range map[string]drill.Break{
		// Squares are 6.25 inches on a 9-foot table, so c5 is from -12.5 to -6.25 and from 25 to 31.25.
		"1 c5":      {Pocketed: down(8, table.FootLeft), Cue: stopped(-9.375, 28.125)},
		"s -3.5,41": {WingMiss: drill.MissSideRail, Cue: stopped(-3.5, 41)},
		"F SL":      {WingMiss: drill.MissFootRail, Cue: drill.CueEnd{How: drill.Scratched, Scratch: table.SideLeft}},
		"j o":       {WingMiss: drill.MissJaws, Cue: drill.CueEnd{How: drill.OffTable}},
		"? a1":      {WingMiss: drill.MissUnknown, Cue: stopped(-21.875, 3.125)},
		"o h16":     {Off: []rack.Ball{8}, Cue: stopped(21.875, 96.875)},
		"sr d8":     {Pocketed: down(8, table.SideRight), Cue: stopped(-3.125, 46.875)},
		"k 2hr 7o c5 b + r6 p2 v18.5 / lost / chalk ": {
			WingMiss: drill.MissKissed, Pocketed: down(2, table.HeadRight), Off: []rack.Ball{7},
			Cue: stopped(-9.375, 28.125), CuePath: drill.PathBack, Shot: drill.ShotOpen,
			Rails: drill.ObservedCount(6), PastString: drill.ObservedCount(2), Speed: 18.5, Note: "lost / chalk",
		},
		"s e6 h = ":   {WingMiss: drill.MissSideRail, Cue: stopped(3.125, 34.375), CuePath: drill.PathHeadRail, Shot: drill.ShotHard},
		"s e6 w - ":   {WingMiss: drill.MissSideRail, Cue: stopped(3.125, 34.375), CuePath: drill.PathForward, Shot: drill.ShotNone},
		"s e6 t r0":   {WingMiss: drill.MissSideRail, Cue: stopped(3.125, 34.375), CuePath: drill.PathHit, Rails: drill.ObservedCount(0)},
		"  s   e6 / ": {WingMiss: drill.MissSideRail, Cue: stopped(3.125, 34.375)},
	} {
		want.Number = 4
		got, err := ReadBreak(line, 4, standard, nine, say.InchesAndMiles)
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%q is read as\n%+v (%v), want\n%+v", line, got, err, want)
		}
	}
}

func TestRead_RefusesWithWords(t *testing.T) {
	for line, says := range map[string]string{
		"":                  "at least",
		"   ":               "at least",
		"/ note":            "at least",
		"c5":                "begin with the wing ball, the 8",
		"z c5":              "begin with the wing ball",
		"1":                 "where the cue ball went",
		"1 2hr b +":         "where the cue ball went",
		"1 c19":             "from a1",
		"1 i3":              "from a1",
		"1 c0":              "from a1",
		"1 2 c5":            "which pocket",
		"1 2xx c5":          "no piece of a break",
		"1 16hr c5":         "no piece",
		"1 c5 d6":           "twice",
		"1 c5 sl":           "twice",
		"1 c5 b h":          "twice",
		"1 c5 + -":          "twice",
		"1 c5 r6 r7":        "twice",
		"1 1,2,3":           "as -3.5,41",
		"1 99,41":           "off the cloth",
		"1 8hr c5":          "there twice",
		"1 2hr 2o c5":       "cannot be",
		"1 12hr c5":         "not in this rack",
		"1 c5 v99":          "not believed",
		"1 c5 vNaN":         "no piece",
		"1 c5 r77":          "from 0 to 9",
		"1 c5 r99999999999": "no piece",
		"1 c5 🎱":            "no piece",
	} {
		_, err := ReadBreak(line, 1, standard, nine, say.InchesAndMiles)
		var problems drill.Problems
		if !errors.As(err, &problems) || !strings.Contains(problems.Error(), says) {
			t.Errorf("%q: %v, want something of %q", line, err, says)
		}
	}
}

// The middle of every square lies in that square, on every table, and the
// squares are mirrored as the table is.
func TestSquares(t *testing.T) {
	for _, k := range []table.Kind{table.SevenFoot(), table.EightFoot(), nine} {
		seen := map[table.Place]bool{}
		for c := range ColumnCount {
			for r := range RowCount {
				name := ColumnName(c) + RowName(r)
				at, ok := SquareCentre(name, k)
				if !ok || !k.OnCloth(at) || seen[at] {
					t.Errorf("%s: the middle of %s is %v", k, name, at)
				}
				seen[at] = true
				across, _ := SquareCentre(ColumnName(ColumnCount-1-c)+RowName(r), k)
				if across != at.Mirror() {
					t.Errorf("%s: the mirror of %s is %v, want %v", k, name, across, at.Mirror())
				}
			}
		}
		// Half a diamond, and the strings and the window's edges are edges of squares.
		if SquareSide(k)*16 != k.Length() || k.HeadString() != 4*SquareSide(k) {
			t.Errorf("%s: squares of %s inches", k, SquareSide(k))
		}
	}
	for _, none := range []string{"", "a", "a0", "a17", "i1", "1a", "a-1", "a01", "aa", "a1x"} {
		if at, ok := SquareCentre(none, nine); ok {
			t.Errorf("%q is the square around %v", none, at)
		}
	}
}

// Ten breaks of an ordinary sheet: fewer than a hundred keys, Enter too.
func TestTenBreaks_InFewKeys(t *testing.T) {
	lines := []string{"s c6", "1 2hr d7", "s b8", "f e9", "1 1sr d6", "k sl", "1 c7", "s d11", "1 d8", "j f10"}
	keys := 0
	for i, line := range lines {
		if _, err := ReadBreak(line, i+1, standard, nine, say.InchesAndMiles); err != nil {
			t.Errorf("%q: %v", line, err)
		}
		keys += len(line) + 1
	}
	if keys >= 100 {
		t.Errorf("%d keys", keys)
	}
}

// Whatever is typed: no panic; what is taken can have happened.
func FuzzRead(f *testing.F) {
	for _, line := range []string{"1 2hr c5 b +", "s -3.5,41 r6 p0 v18 / a note", "o 7o o", "? h16 t -", "1 2", "é 8fl"} {
		f.Add(line)
	}
	f.Fuzz(func(t *testing.T, line string) {
		b, err := ReadBreak(line, 1, standard, nine, say.InchesAndMiles)
		if err != nil {
			var problems drill.Problems
			if !errors.As(err, &problems) || len(problems) == 0 {
				t.Fatalf("%q: %v is no list of problems", line, err)
			}
			return
		}
		if err := b.Check(standard, nine); err != nil {
			t.Fatalf("%q was taken: %v", line, err)
		}
	})
}

// A club that reads centimetres types them: -10 cm are -3.94 in, 104 cm 40.94 in and 30
// km/h 18.64 mph, each the roundest that is shown as what was typed.
func TestReadBreak_InCentimetres(t *testing.T) {
	b, err := ReadBreak("1 -10,104 v30", 1, standard, nine, say.Metric)
	if err != nil || b.Cue.Place != (table.Place{X: -3.94, Y: 40.94}) || b.Speed != 18.64 {
		t.Errorf("read as %v at %v mph: %v", b.Cue.Place, b.Speed, err)
	}
}
