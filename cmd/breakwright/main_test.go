package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// commandResult is what a command line did.
type commandResult struct {
	code     int
	out, err string
}

func executeCommand(t testing.TB, stdin string, args ...string) commandResult {
	t.Helper()
	var out, errs bytes.Buffer
	code := runCommand(context.Background(), args, strings.NewReader(stdin), &out, &errs)
	return commandResult{code, out.String(), errs.String()}
}

func fixturePath(name string) string { return filepath.Join("..", "..", "testdata", "breaklog", name) }

func TestRun_ExitCodes(t *testing.T) {
	for name, c := range map[string]struct {
		args     []string
		code     int
		out, err string // what is said there, in part
	}{
		"nothing":          {nil, exitUsage, "", "advise"},
		"help":             {[]string{"help"}, exitOK, "rehearse", ""},
		"unknown command":  {[]string{"advice"}, exitUsage, "", `there is no command "advice"`},
		"help of advise":   {[]string{"advise", "-h"}, exitOK, "", "FILE - is the standard input"},
		"no file":          {[]string{"advise"}, exitUsage, "", "usage: breakwright advise"},
		"two files":        {[]string{"advise", "a", "b"}, exitUsage, "", "usage: breakwright advise"},
		"unknown format":   {[]string{"advise", "--format", "xml", fixturePath("paper.csv")}, exitUsage, "", "usage"},
		"unknown flag":     {[]string{"advise", "--loud", fixturePath("paper.csv")}, exitUsage, "", "-loud"},
		"missing file":     {[]string{"advise", "no-such.csv"}, exitFailed, "", "no-such.csv"},
		"bad file":         {[]string{"advise", fixturePath("spoilt.csv")}, exitFailed, "", "line 3, column table_ft, \"10\": 7, 8, 9, small 7 (38 × 76 in) or small 8"},
		"good file":        {[]string{"advise", fixturePath("paper.csv")}, exitOK, "Marit\n=====\n", ""},
		"flag after file":  {[]string{"advise", fixturePath("paper.csv"), "--format=json"}, exitOK, `"student": "Marit"`, ""},
		"rehearse nobody":  {[]string{"rehearse", "--students", "0"}, exitFailed, "", "from 1 to"},
		"rehearse a fault": {[]string{"rehearse", "--fault", "luck"}, exitUsage, "", "steadiness"},
		"rehearse a file":  {[]string{"rehearse", "paper.csv"}, exitUsage, "", "usage: breakwright rehearse"},
		"rehearse":         {[]string{"rehearse", "--students=2", "--sets=1", "--fault=tip"}, exitOK, "# Rehearsal", ""},
	} {
		got := executeCommand(t, "", c.args...)
		if got.code != c.code || !strings.Contains(got.out, c.out) || !strings.Contains(got.err, c.err) {
			t.Errorf("%s: %+v", name, got)
		}
		if c.code == exitOK && c.err == "" && got.err != "" || c.code != exitOK && got.out != "" {
			t.Errorf("%s: said in the wrong place: %+v", name, got)
		}
	}
}

func TestAdvise_StandardInput(t *testing.T) {
	text, err := os.ReadFile(fixturePath("evening.csv"))
	if err != nil {
		t.Fatal(err)
	}
	got := executeCommand(t, string(text), "advise", "-")
	if got.code != exitOK || !strings.Contains(got.out, "Teodor, South 1") || !strings.Contains(got.out, "Ilse, Bar") {
		t.Errorf("%+v", got)
	}
	if spoilt := executeCommand(t, "student,sets\n", "advise", "-"); spoilt.code != exitFailed ||
		!strings.Contains(spoilt.err, `the standard input was not taken:`) || !strings.Contains(spoilt.err, `line 1, "sets": no such column`) {
		t.Errorf("%+v", spoilt)
	}
}

func TestAdvise_JSONHasTheFixedShape(t *testing.T) {
	got := executeCommand(t, "", "advise", "--format", "json", fixturePath("evening.csv"))
	var all []map[string]json.RawMessage
	if err := json.Unmarshal([]byte(got.out), &all); err != nil || len(all) != 2 {
		t.Fatalf("%v: %s", err, got.out)
	}
	for _, key := range []string{"student", "table", "stint", "findings", "verdict", "breaks_needed", "prescription", "next_setup"} {
		if _, there := all[0][key]; !there {
			t.Errorf("no %s", key)
		}
	}
	if string(all[0]["student"]) != `"Teodor"` || string(all[1]["student"]) != `"Ilse"` {
		t.Errorf("students %s, %s: not in order of first appearance", all[0]["student"], all[1]["student"])
	}
	var stint struct{ Sets, Breaks int }
	var next map[string]any
	var findings []any
	for part, into := range map[string]any{"stint": &stint, "next_setup": &next, "findings": &findings} {
		if err := json.Unmarshal(all[0][part], into); err != nil {
			t.Errorf("%s: %v", part, err)
		}
	}
	if stint.Sets != 1 || stint.Breaks != 2 || findings == nil {
		t.Errorf("stint %+v, findings %v", stint, findings)
	}
	var keys []string
	for key := range next {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	if want := []string{"contact", "cue_x", "cue_y", "rack", "side", "speed", "spin", "tip"}; !slices.Equal(keys, want) {
		t.Errorf("next_setup has %v, want %v", keys, want)
	}
}

func TestAdvise_NobodyIsAnEmptyArray(t *testing.T) {
	got := executeCommand(t, "student,set,break,cue_x,cue_y,pocketed,cue\n", "advise", "--format=json", "-")
	if got.code != exitOK || got.out != "[]\n" {
		t.Errorf("%+v", got)
	}
}

func TestRehearse_JSON(t *testing.T) {
	got := executeCommand(t, "", "rehearse", "--students=3", "--sets=2", "--format=json", "--seed=4")
	var report struct {
		Seed uint64
		Rows []struct{ Fault string }
	}
	if err := json.Unmarshal([]byte(got.out), &report); err != nil || report.Seed != 4 || len(report.Rows) < 6 || report.Rows[0].Fault != "place" {
		t.Errorf("%v: %+v", err, report)
	}
}
