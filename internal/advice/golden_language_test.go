package advice_test

import (
	"slices"
	"strings"
	"testing"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

const plainHead = "title: Too far in\ncoach: Further out.\n"

func TestParseExpectation_RefusesWhatItDoesNotKnow(t *testing.T) {
	for _, c := range []struct{ lines, says string }{
		{"verdict: changes", `"changes" is none of`},
		{"verdict: change, more", `"change, more" is none of`},
		{"change: place outward", `"place outward" is none of`},
		{"never: speed", `"speed" is none of`},
		{"change: place in or nothing\nnever: place in", "both allowed and never told"},
		{"outcome: better", `"better" is none of`},
		{"tell coach: perhaps", "neither yes nor no"},
		{"card: 1", "neither yes nor no"},
		{"verdict: more\nsays: rack /", "empty phrase"},
		{"verdicts: more", `"verdicts" is no key`},
		{"next spin: 0 to 1", `"next spin" is no key`},
		{"next place: 14-18", "two numbers"},
		{"next place: fourteen to 18", "not a number"},
		{"next tip: 0 to up", "not a number"},
		{"next place: 18 to 14", "runs backwards"},
		{"verdict: more\nverdict: keep", "stands here twice"},
		{"verdict more", "not a key"},
		{"verdict:", "not a key"},
		{"says: rack", "asks nothing"},
	} {
		_, err := parseExpectation(plainHead + c.lines)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: %v, want an error with %q", c.lines, err, c.says)
		}
	}
	if _, err := parseExpectation("title: No coach\nverdict: more"); err == nil {
		t.Error("a case without a coach's sentence is taken")
	}
}

// told is the advice to a left-side breaker at 16 inches to move one part.
func adviceToChange(variable advice.Variable, from, to float64) advice.Advice {
	return advice.Advice{
		Verdict:      advice.Change,
		Says:         "Headline about the side rail.",
		Prescription: &advice.Prescription{Variable: variable, From: advice.NumberValue(from), To: advice.NumberValue(to), Reason: "Reason."},
		Next:         drill.Setup{Side: table.Left, Cue: table.Place{X: -16}, Contact: 0.2, Tip: -0.1, Speed: 18},
	}
}

func TestExpectation_FindsWhatIsBroken(t *testing.T) {
	out := adviceToChange(advice.VaryPlace, -12, -16)
	for _, c := range []struct {
		line   string
		advice advice.Advice
		broken bool
	}{
		{"verdict: change", out, false},
		{"verdict: more or keep", out, true},
		{"change: place out or nothing", out, false},
		{"change: place in", out, true},
		{"never: place in", out, false},
		{"never: place out or tip up", out, true},
		{"change: nothing", advice.Advice{}, false},
		{"change: nothing", advice.Advice{Prescription: &advice.Prescription{Variable: advice.VaryNone}}, false},
		{"change: place out", advice.Advice{}, true},
		{"verdict: change\nsays: kisses / SIDE rail", out, false},
		{"verdict: change\nsays: kisses / foot rail", out, true},
		{"verdict: change\nnever says: reason", out, true},
		{"verdict: change\nnever says: kisses", out, false},
		{"outcome: not known", out, false},
		{"outcome: helped", out, true},
		{"outcome: helped", advice.Advice{FollowUp: &advice.FollowUp{Outcome: advice.Helped}}, false},
		{"outcome: not known", advice.Advice{FollowUp: &advice.FollowUp{Outcome: advice.InTrial}}, false},
		{"verdict: change\ntell coach: no", out, false},
		{"verdict: change\ntell coach: yes", out, true},
		{"verdict: change\ncard: no", out, false},
		{"verdict: change\ncard: yes", out, true},
		{"verdict: change\nnext place: 15 to 16", out, false},
		{"verdict: change\nnext place: 17 to 20", out, true},
		{"verdict: change\nnext contact: 0.1 to 0.3", out, false},
		{"verdict: change\nnext contact: -0.3 to -0.1", out, true},
		{"verdict: change\nnext tip: -0.1 to 0", out, false},
		{"verdict: change\nnext tip: 0 to 0.1", out, true},
		{"verdict: change\nnext speed: 18 to 18", out, false},
		{"verdict: change\nnext speed: 19 to 20", out, true},
	} {
		e, err := parseExpectation(plainHead + c.line)
		if err != nil {
			t.Errorf("%q: %v", c.line, err)
			continue
		}
		if broken := e.listBroken(c.advice); (len(broken) > 0) != c.broken {
			t.Errorf("%q: broken %q, want %v", c.line, broken, c.broken)
		}
	}
}

func TestMoveOf_NamesEachWayFromBothSides(t *testing.T) {
	named := []string{nothing}
	for _, c := range []struct {
		variable advice.Variable
		from, to float64
		left     string
		right    string
	}{
		{advice.VaryPlace, -12, -16, "place out", "place in"},
		{advice.VaryPlace, -16, -12, "place in", "place out"},
		{advice.VaryContact, 0, -0.2, "contact break-side", "contact far-side"},
		{advice.VaryContact, 0, 0.2, "contact far-side", "contact break-side"},
		{advice.VaryTip, -0.1, 0, "tip up", "tip up"},
		{advice.VaryTip, 0, -0.1, "tip down", "tip down"},
		{advice.VarySpin, 0.2, 0, "spin to nothing", "spin to nothing"},
		{advice.VarySpin, 0, 0.2, "spin otherwise", "spin otherwise"},
		{advice.VarySpeed, 17, 18, "speed up", "speed up"},
		{advice.VarySpeed, 18, 17, "speed down", "speed down"},
		{advice.VaryRack, 0, 0, "rack order", "rack order"},
	} {
		a := adviceToChange(c.variable, c.from, c.to)
		if got := moveOf(a); got != c.left {
			t.Errorf("%s from %g to %g from the left is %q, want %q", c.variable, c.from, c.to, got, c.left)
		}
		a.Next.Side = table.Right
		if got := moveOf(a); got != c.right {
			t.Errorf("%s from %g to %g from the right is %q, want %q", c.variable, c.from, c.to, got, c.right)
		}
		named = append(named, c.left)
	}
	for _, move := range moves() {
		if !slices.Contains(named, move) {
			t.Errorf("no change is called %q", move)
		}
	}
}

func TestListBrokenGrammar_FindsSlips(t *testing.T) {
	for _, c := range []struct {
		sentences string
		slips     int
	}{
		{"Ten more. The same again.\n\nWatch the cue ball.", 0},
		{"ten more.", 1},
		{"Ten more", 1},
		{"Ten  more.", 1},
		{"It fell in only none of ten.", 1},
		{"Ten more.\nit fell in %!d(string=ten)", 3},
	} {
		if broken := listBrokenGrammar(c.sentences); len(broken) != c.slips {
			t.Errorf("%q: %q, want %d", c.sentences, broken, c.slips)
		}
	}
}
