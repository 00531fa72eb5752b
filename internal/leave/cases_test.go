package leave

import (
	"encoding/json"
	"flag"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

var updateCases = flag.Bool("update", false, "write testdata/leave/cases.json anew from what the finder says now")

const casesFile = "../../testdata/leave/cases.json"

// sharedCase is a leave and its answer, as the phone's finder is held to it too.
type sharedCase struct {
	Table    caseTable  `json:"table"`
	Game     rack.Game  `json:"game"`
	Cue      [2]float64 `json:"cue"`
	Placed   []caseBall `json:"placed"`
	Unplaced []int      `json:"unplaced"` // a list of small numbers would be written as bytes
	Accuracy float64    `json:"accuracy"`
	Answer   caseAnswer `json:"answer"`
}

type caseTable struct {
	Feet   int     `json:"feet"`
	Small  bool    `json:"small,omitempty"`
	Corner float64 `json:"corner"`
	Side   float64 `json:"side"`
}

type caseBall struct {
	Ball rack.Ball  `json:"ball"`
	At   [2]float64 `json:"at"`
}

type caseAnswer struct {
	Ball    rack.Ball  `json:"ball"`
	Shot    drill.Shot `json:"shot"`
	Certain bool       `json:"certain"`
	Shots   []caseShot `json:"shots"`
}

type caseShot struct {
	Pocket    table.Pocket `json:"pocket"`
	Way       Way          `json:"way"`
	Rail      table.Rail   `json:"rail"`
	Cut       float64      `json:"cut"`
	Chance    float64      `json:"chance"`
	BlockedBy []int        `json:"blocked_by"`
}

func (c sharedCase) leave() Leave {
	k := table.Kind{Feet: c.Table.Feet, Small: c.Table.Small, CornerMouth: table.Inches(c.Table.Corner), SideMouth: table.Inches(c.Table.Side)}
	place := func(at [2]float64) table.Place {
		return k.SettleBall(table.Place{X: table.Inches(at[0]), Y: table.Inches(at[1])})
	}
	l := Leave{Kind: k, Game: c.Game, Cue: place(c.Cue)}
	for _, b := range c.Unplaced {
		l.Unplaced = append(l.Unplaced, rack.Ball(b))
	}
	for _, b := range c.Placed {
		l.Placed = append(l.Placed, drill.RestingBall{Ball: b.Ball, Place: place(b.At)})
	}
	return l
}

func (c sharedCase) answer() caseAnswer {
	a := FindShots(c.leave(), PlayerAt(Accuracy(c.Accuracy)))
	out := caseAnswer{Ball: a.Ball, Shot: a.Shot, Certain: a.Certain, Shots: []caseShot{}}
	for _, s := range a.Shots {
		by := []int{}
		for _, b := range s.BlockedBy {
			by = append(by, int(b))
		}
		out.Shots = append(out.Shots, caseShot{s.Pocket, s.Way, s.Rail, float64(s.Cut), s.Chance, by})
	}
	return out
}

// The finder and the phone's (static/js/leave.js) are held to the same leaves: the
// file is made by this test with -update, and read in review.
func TestFindShots_SharedCases(t *testing.T) {
	if *updateCases {
		writeCases(t)
	}
	text, err := os.ReadFile(casesFile)
	if err != nil {
		t.Fatal(err)
	}
	var cases []sharedCase
	if err := json.Unmarshal(text, &cases); err != nil {
		t.Fatal(err)
	}
	seen := map[drill.Shot]int{}
	for i, c := range cases {
		got, want := c.answer(), c.Answer
		seen[want.Shot]++
		if got.Ball != want.Ball || got.Shot != want.Shot || got.Certain != want.Certain || len(got.Shots) != len(want.Shots) {
			t.Errorf("case %d: %+v, want %+v", i, got, want)
			continue
		}
		for j, s := range got.Shots {
			w := want.Shots[j]
			if s.Pocket != w.Pocket || s.Way != w.Way || s.Rail != w.Rail || !slices.Equal(s.BlockedBy, w.BlockedBy) ||
				math.Abs(s.Chance-w.Chance) > 1e-6 || math.Abs(s.Cut-w.Cut) > 1e-4 {
				t.Errorf("case %d, shot %d: %+v, want %+v", i, j, s, w)
			}
		}
	}
	for _, s := range append(drill.Shots(), "") {
		if seen[s] < 3 {
			t.Errorf("only %d cases are %q", seen[s], s)
		}
	}
}

func writeCases(t *testing.T) {
	rng := rand.New(rand.NewPCG(14, 14))
	var cases []sharedCase
	for i := range 90 {
		k := kinds[i%len(kinds)]
		l := drawLeave(k, 1+i%7, rng)
		c := sharedCase{
			Table: caseTable{k.Feet, k.Small, float64(k.CornerMouth), float64(k.SideMouth)}, Game: rack.Games()[i%4%3],
			Cue: roundedPlace(l.Cue), Unplaced: []int{}, Accuracy: float64(Levels()[i%4].Accuracy),
		}
		for j, r := range l.Placed {
			c.Placed = append(c.Placed, caseBall{rack.Ball(j + 1 + i%13/12), roundedPlace(r.Place)}) // now and then the 1 is missing
		}
		if i%3 == 0 {
			c.Unplaced = append(c.Unplaced, 9)
		}
		if i%13 == 12 {
			c.Unplaced = append(c.Unplaced, 1)
		}
		c.Answer = c.answer()
		cases = append(cases, c)
	}
	// Balls on rails, which are not turned there, and two put down too near.
	for _, at := range [][2][2]float64{{{-25, 80}, {-22, 95}}, {{0, 70}, {-25, 70}}, {{0, 47.9}, {0, 50}}} {
		c := sharedCase{Table: caseTable{Feet: 9, Corner: 4.5, Side: 5}, Game: rack.NineBall, Cue: at[0],
			Placed: []caseBall{{1, at[1]}}, Unplaced: []int{}, Accuracy: float64(Expert)}
		c.Answer = c.answer()
		cases = append(cases, c)
	}
	text, err := json.Marshal(cases)
	if err != nil {
		t.Fatal(err)
	}
	var lines []byte
	for i, b := range text {
		lines = append(lines, b)
		if b == ',' && i+9 < len(text) && string(text[i+1:i+9]) == `{"table"` {
			lines = append(lines, '\n')
		}
	}
	if err := os.WriteFile(casesFile, append(lines, '\n'), 0o644); err != nil {
		t.Fatal(err)
	}
}

// roundedPlace is a place to the tenth of an inch.
func roundedPlace(p table.Place) [2]float64 {
	return [2]float64{math.Round(float64(p.X)*10) / 10, math.Round(float64(p.Y)*10) / 10}
}
