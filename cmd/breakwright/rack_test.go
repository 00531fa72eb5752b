package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"testing"
)

func TestRack_ExitCodes(t *testing.T) {
	for name, c := range map[string]struct {
		args     []string
		code     int
		out, err string
	}{
		"help":           {[]string{"rack", "-h"}, exitOK, "", "should change places"},
		"no file":        {[]string{"rack"}, exitUsage, "", "usage: breakwright rack"},
		"unknown format": {[]string{"rack", "--format", "xml", fixturePath("paper.csv")}, exitUsage, "", "usage"},
		"missing file":   {[]string{"rack", "no-such.csv"}, exitFailed, "", "no-such.csv"},
		"bad file":       {[]string{"rack", fixturePath("spoilt.csv")}, exitFailed, "", "line 3, column table_ft, \"10\": 7, 8, 9, small 7 (38 × 76 in) or small 8"},
		"text":           {[]string{"rack", fixturePath("evening.csv")}, exitOK, "Note:  Rule books ask for no purposeful order", ""},
		"nobody":         {[]string{"rack", "--format=json", "-"}, exitOK, "[]\n", ""},
	} {
		got := executeCommand(t, "student,set,break,cue_x,cue_y,pocketed,cue\n", c.args...)
		if got.code != c.code || !strings.Contains(got.out, c.out) || !strings.Contains(got.err, c.err) {
			t.Errorf("%s: %+v", name, got)
		}
		if c.code != exitOK && got.out != "" {
			t.Errorf("%s: said in the wrong place: %+v", name, got)
		}
	}
	text, err := os.ReadFile(fixturePath("spoilt.csv"))
	if err != nil {
		t.Fatal(err)
	}
	if advised, planned := executeCommand(t, string(text), "advise", "-"), executeCommand(t, string(text), "rack", "-"); advised != planned {
		t.Errorf("advise says %+v\nrack says %+v", advised, planned)
	}
}

func TestRack_JSONHasTheFixedShape(t *testing.T) {
	got := executeCommand(t, "", "rack", "--format", "json", fixturePath("evening.csv"))
	var rows []map[string]any
	if err := json.Unmarshal([]byte(got.out), &rows); err != nil || len(rows) != 2 {
		t.Fatalf("%v: %s", err, got.out)
	}
	if keys := sortedKeys(rows[0]); !slices.Equal(keys, []string{"gain", "high", "low", "order", "own_share", "student", "swap"}) {
		t.Errorf("a row has %v", keys)
	}
	if rows[0]["student"] != "Teodor" || rows[1]["student"] != "Ilse" {
		t.Errorf("students %v, %v: not in order of first appearance", rows[0]["student"], rows[1]["student"])
	}
	again := executeCommand(t, "", "rack", "--format", "json", fixturePath("evening.csv"))
	if again != got {
		t.Error("the same file has another answer")
	}
}

// A rack with the 2 at the foot end of the far side, where it stays: after forty
// breaks with three balls placed a swap is named, and as two slots.
func TestRack_NamesTheSwap(t *testing.T) {
	var log strings.Builder
	log.WriteString("student,set,break,rack,cue_x,cue_y,pocketed,cue,rest\n")
	for i := range 40 {
		fmt.Fprintf(&log, "Odile,a,%d,1-3-4-8-9-5-6-2-7,-18,25,", i+1)
		log.WriteString([]string{"8@foot-left", "1@side-right", ""}[i%3] + `,"-3.5,41",`)
		one := `1@10,30;`
		if i%3 == 1 {
			one = ""
		}
		log.WriteString(`"` + one + []string{"2@15,92;3@-18,85;4@5,30", "2@20,80;3@-20,90;4@-8,35", "2@2,95;3@-14,72;4@12,22"}[i/2%3] + "\"\n")
	}
	got := executeCommand(t, log.String(), "rack", "--format", "json", "-")
	var rows []rackRow
	if err := json.Unmarshal([]byte(got.out), &rows); err != nil || len(rows) != 1 {
		t.Fatalf("%v: %s%s", err, got.out, got.err)
	}
	if r := rows[0]; r.Swap != "2R-4R" || r.Low <= 0 || r.High <= r.Gain || r.OwnShare < 0.3 {
		t.Errorf("%+v", r)
	}
}

// Whatever is sent, rack ends, and either answers or refuses as advise does.
func FuzzRack(f *testing.F) {
	for _, name := range []string{"example.csv", "paper.csv", "evening.csv", "spoilt.csv"} {
		text, err := os.ReadFile(fixturePath(name))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		var out, errs bytes.Buffer
		code := runCommand(context.Background(), []string{"rack", "--format=json", "-"}, bytes.NewReader(text), &out, &errs)
		var rows []rackRow
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

// The promise: a hundred thousand breaks in three seconds on one core.
func BenchmarkRack_100000(b *testing.B) {
	file := placedClub(b, 1000, 10)
	b.SetBytes(int64(len(file)))
	for b.Loop() {
		if code := runCommand(context.Background(), []string{"rack", "--format=json", "-"}, bytes.NewReader(file), io.Discard, io.Discard); code != exitOK {
			b.Fatal(code)
		}
	}
}
