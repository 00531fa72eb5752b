package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"breakwright/internal/breaklog"
	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

func TestShots_ExitCodes(t *testing.T) {
	for name, c := range map[string]struct {
		args     []string
		code     int
		out, err string
	}{
		"help":          {[]string{"shots", "-h"}, exitOK, "", "a shot on the lowest ball"},
		"no file":       {[]string{"shots"}, exitUsage, "", "usage: breakwright shots"},
		"unknown level": {[]string{"shots", "--level", "god", fixturePath("example.csv")}, exitUsage, "", "usage"},
		"missing file":  {[]string{"shots", "no-such.csv"}, exitFailed, "", "no-such.csv"},
		"bad file":      {[]string{"shots", "--format=json", fixturePath("spoilt.csv")}, exitFailed, "", "line 3, column table_ft, \"10\": 7, 8, 9, small 7 (38 × 76 in) or small 8"},
		"text":          {[]string{"shots", fixturePath("example.csv")}, exitOK, "Odile, a1, 1: An open shot on the 1 into the left head corner", ""},
		"nobody":        {[]string{"shots", "--format=json", "-"}, exitOK, "[]\n", ""},
	} {
		got := executeCommand(t, "student,set,break,cue_x,cue_y,pocketed,cue\n", c.args...)
		if got.code != c.code || !strings.Contains(got.out, c.out) || !strings.Contains(got.err, c.err) {
			t.Errorf("%s: %+v", name, got)
		}
		if c.code != exitOK && got.out != "" {
			t.Errorf("%s: said in the wrong place: %+v", name, got)
		}
	}
}

// A file that is not taken is answered word for word as advise answers it.
func TestShots_BadFileAsAdvise(t *testing.T) {
	text, err := os.ReadFile(fixturePath("spoilt.csv"))
	if err != nil {
		t.Fatal(err)
	}
	advised := executeCommand(t, string(text), "advise", "-")
	looked := executeCommand(t, string(text), "shots", "-")
	if advised != looked {
		t.Errorf("advise says %+v\nshots says %+v", advised, looked)
	}
}

func TestShots_JSONHasTheFixedShape(t *testing.T) {
	got := executeCommand(t, "", "shots", "--format", "json", fixturePath("example.csv"))
	var rows []map[string]any
	if err := json.Unmarshal([]byte(got.out), &rows); err != nil || len(rows) != 2 {
		t.Fatalf("%v: %s", err, got.out)
	}
	if keys := sortedKeys(rows[0]); !slices.Equal(keys, []string{"break", "lowest", "set", "shot", "shots", "student"}) {
		t.Errorf("a row has %v", keys)
	}
	first := rows[0]["shots"].([]any)[0].(map[string]any)
	if keys := sortedKeys(first); !slices.Equal(keys, []string{"blocked_by", "chance", "cut_deg", "kind", "pocket"}) {
		t.Errorf("a shot has %v", keys)
	}
	if first["pocket"] != "head-left" || first["kind"] != "direct" || first["blocked_by"] == nil {
		t.Errorf("the best shot is %v", first)
	}
	// The second break was a scratch: the cue ball in hand is an open shot.
	if rows[0]["shot"] != "open" || rows[0]["lowest"] != 1.0 || rows[1]["shot"] != "open" {
		t.Errorf("%v", rows)
	}
	unknown := executeCommand(t, "", "shots", "--format", "json", fixturePath("paper.csv"))
	if err := json.Unmarshal([]byte(unknown.out), &rows); err != nil || rows[0]["shot"] != nil || rows[0]["lowest"] != 1.0 {
		t.Errorf("%v: %s", err, unknown.out)
	}
}

func sortedKeys(row map[string]any) []string {
	var keys []string
	for key := range row {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}

// shotsRow is a break in the answer. Lowest is null when nothing is left to shoot
// at, Shot when it is not known.
type shotsRow struct {
	Student string      `json:"student"`
	Set     string      `json:"set"`
	Break   int         `json:"break"`
	Lowest  *rack.Ball  `json:"lowest"`
	Shot    *drill.Shot `json:"shot"`
	Shots   []shotsShot `json:"shots"`
}

type shotsShot struct {
	Pocket    table.Pocket `json:"pocket"`
	Kind      leave.Way    `json:"kind"`
	CutDeg    float64      `json:"cut_deg"`
	Chance    float64      `json:"chance"`
	BlockedBy []int        `json:"blocked_by"`
}

// Whatever is sent, shots ends, and either answers with a row a break or refuses
// as advise does.
func FuzzShots(f *testing.F) {
	for _, name := range []string{"example.csv", "paper.csv", "evening.csv", "spoilt.csv"} {
		text, err := os.ReadFile(fixturePath(name))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Add([]byte("student,set,break,game,cue_x,cue_y,pocketed,cue,rest\na,b,1,eight-ball,0,20,8@foot-left,scratch@head-left,\"1@25,100;2@25,100;3@-25,50\"\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		var out, errs bytes.Buffer
		code := runCommand(context.Background(), []string{"shots", "--format=json", "-"}, bytes.NewReader(text), &out, &errs)
		var rows []shotsRow
		switch code {
		case exitOK:
			if err := json.Unmarshal(out.Bytes(), &rows); err != nil {
				t.Fatalf("%v: %s", err, out.Bytes())
			}
		case exitFailed:
			if out.Len() > 0 || errs.Len() == 0 {
				t.Fatalf("refused with %q and %q", out.Bytes(), errs.Bytes())
			}
		default:
			t.Fatalf("exit code %d", code)
		}
	})
}

// The promise: a hundred thousand breaks with three balls placed in three
// seconds on one core.
func BenchmarkShots_100000(b *testing.B) {
	file := placedClub(b, 1000, 10)
	b.SetBytes(int64(len(file)))
	for b.Loop() {
		if code := runCommand(context.Background(), []string{"shots", "--format=json", "-"}, bytes.NewReader(file), io.Discard, io.Discard); code != exitOK {
			b.Fatal(code)
		}
	}
}

// placedClub is the log of so many students with so many sets of ten, the three
// lowest balls placed.
func placedClub(b *testing.B, students, sets int) []byte {
	b.Helper()
	rng := rand.New(rand.NewPCG(2, 2))
	k := table.NineFoot()
	anywhere := func() table.Place {
		return table.Place{X: table.Inches(math.Round(480*rng.Float64()-240)) / 10, Y: table.Inches(math.Round(980*rng.Float64()+10)) / 10}
	}
	var all []drill.Set
	for i := range students {
		side := []table.Side{table.Left, table.Right}[i%2]
		for n := range sets {
			set := drill.Set{Student: fmt.Sprintf("Student %d", i), Name: fmt.Sprint(n), Table: "North 2", Kind: k, Setup: drill.StandardSetup(rack.NineBall, side, k)}
			for j := range drill.UsualBreaks {
				broken := drill.Break{Number: j + 1, Cue: drill.CueEnd{How: drill.Stopped, Place: anywhere()}}
				for ball := rack.Ball(1); ball <= 3; ball++ {
					broken.Rest = append(broken.Rest, drill.RestingBall{Ball: ball, Place: anywhere()})
				}
				if rng.IntN(3) == 0 {
					broken.Pocketed = []drill.Pocketed{{Ball: 8, Pocket: table.FootCorner(side)}}
				}
				set.Breaks = append(set.Breaks, broken)
			}
			all = append(all, set)
		}
	}
	var file bytes.Buffer
	if err := breaklog.Write(&file, all); err != nil {
		b.Fatal(err)
	}
	return file.Bytes()
}
