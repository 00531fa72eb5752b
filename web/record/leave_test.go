//go:build !quick

package record_test

import (
	"fmt"
	"os"
	"testing"

	"breakwright/internal/leave"
	"breakwright/static"
	"breakwright/web/browser"
)

// disagreements runs the phone's shot finder over the shared cases and lists where
// it answers otherwise: chances to a millionth, cuts to a ten-thousandth of a
// degree.
const disagreements = `((cases) => cases.flatMap((c, i) => {
	const got = bw.findShots(c), want = c.answer;
	const same = got.ball === want.ball && got.shot === want.shot && got.certain === want.certain && got.shots.length === want.shots.length &&
		got.shots.every((s, j) => {
			const w = want.shots[j];
			return s.pocket === w.pocket && s.way === w.way && s.rail === w.rail && s.blockedBy.join() === w.blocked_by.join() &&
				Math.abs(s.chance - w.chance) <= 1e-6 && Math.abs(s.cut - w.cut) <= 1e-4;
		});
	return same ? [] : ["case " + i + ": " + JSON.stringify(got)];
}))(%s)`

// The phone finds the same shots as the program (internal/leave has the same test), and
// says of a chance the same words.
func TestFindShots_OnThePhone(t *testing.T) {
	script, err := static.ReadFile("js/leave.js")
	if err != nil {
		t.Fatal(err)
	}
	cases, err := os.ReadFile("../../testdata/leave/cases.json")
	if err != nil {
		t.Fatal(err)
	}
	w := browser.OpenWindow(t, browser.Phone)
	w.Navigate("about:blank")
	if n := browser.Evaluate[int](w, string(script)+fmt.Sprintf("\n;(%s).length", cases)); n < 50 {
		t.Fatalf("only %d cases", n)
	}
	for _, says := range browser.Evaluate[[]string](w, fmt.Sprintf(disagreements, cases)) {
		t.Error(says)
	}
	for i, says := range browser.Evaluate[[]string](w, "Array.from({ length: 101 }, (_, i) => bw.chanceWords(i / 100))") {
		if want := leave.ChanceWords(float64(i) / 100); says != want {
			t.Errorf("%d of a hundred: %q, want %q", i, says, want)
		}
	}
}
