//go:build !quick

package main

import (
	"encoding/json"
	"strings"
	"testing"
)

func TestRehearse_ModelsAndRules(t *testing.T) {
	for name, c := range map[string]struct {
		args []string
		code int
		out  string
		says string
	}{
		"without two":  {[]string{"--students=2", "--sets=1", "--fault=tip", "--without=unsteady", "--without", "follow-up"}, exitOK, "Switched off: unsteady, follow-up.", ""},
		"without luck": {[]string{"--students=2", "--without=luck"}, exitFailed, "", "no rule \"luck\""},
		"worth":        {[]string{"--ablate", "--students=1", "--sets=1", "--fault=tip"}, exitOK, "| wing-miss-balance", ""},
		"told apart":   {[]string{"--tell-apart", "--students=2"}, exitOK, "| loose rack", ""},
		"promises":     {[]string{"--promises", "--model=physics", "--students=1", "--sets=1", "--fault=tip"}, exitOK, "--students 1 --sets 1 --promises", ""},
		"promises without": {[]string{"--promises", "--model=physics", "--students=1", "--sets=1", "--fault=tip", "--without=unsteady", "--forget=misses"}, exitOK,
			"--without unsteady --forget misses --students 1 --sets 1 --promises`.\n\nSwitched off: unsteady.\n\nKept from the adviser: misses.\n\nAll but", ""},
		"of curves":       {[]string{"--promises", "--students=1"}, exitFailed, "", "computed students"},
		"two reports":     {[]string{"--tell-apart", "--ablate"}, exitUsage, "", "--tell-apart"},
		"another rack":    {[]string{"--model=physics", "--rack=ten-ball/head", "--forget=misses", "--students=1", "--sets=1", "--fault=side spin"}, exitOK, "--rack ten-ball/head --forget misses", ""},
		"an unknown rack": {[]string{"--rack=darts/head"}, exitUsage, "", "ten-ball/head"},
		"an unknown fact": {[]string{"--forget=luck", "--students=1"}, exitFailed, "", "no fact \"luck\""},
		"an unknown clay": {[]string{"--model=clay"}, exitUsage, "", "physics"},
	} {
		got := executeCommand(t, "", append([]string{"rehearse"}, c.args...)...)
		if got.code != c.code || !strings.Contains(got.out, c.out) || !strings.Contains(got.err, c.says) {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

func TestRehearse_WorthAsJSON(t *testing.T) {
	got := executeCommand(t, "", "rehearse", "--ablate", "--students=1", "--sets=1", "--format=json")
	var worth struct {
		Model string
		Rows  []struct {
			Rule    string
			Touched struct{ Of int }
		}
	}
	if err := json.Unmarshal([]byte(got.out), &worth); err != nil || worth.Model != "curve" || len(worth.Rows) < 10 || worth.Rows[0].Touched.Of != 6 {
		t.Errorf("%v: %+v", err, worth)
	}
}
