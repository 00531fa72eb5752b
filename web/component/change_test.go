package component

import (
	"slices"
	"strings"
	"testing"

	"breakwright/internal/advice"
	"breakwright/internal/coaching"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

// movedOut is a change of the place, approved, in a state.
func movedOut(state coaching.State) ChangeView {
	before := drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot())
	before.Cue.X = -18
	after := before
	after.Cue.X = -22
	return NewChangeView(coaching.Change{
		Kind: table.NineFoot(), Rule: "wing-miss-balance", Count: 7, Of: 7, Before: before, Proposed: after,
		State: state, Decision: coaching.Approved, Counts: coaching.Counts{Measure: "wing ball", Before: 2, OfBefore: 10, Since: 9, OfSince: 10},
	}, say.Proposal{Reason: say.KeptWords("Move the cue ball 4 inches out.")}, say.Reader{})
}

// What was asked for once asks for nothing when the change has come to an end.
func TestLines_AnEndedChangeOrdersNothing(t *testing.T) {
	for _, state := range []coaching.State{
		coaching.Approved, coaching.InTrial, coaching.Helped, coaching.NoDifference, coaching.Hurt, coaching.Superseded,
	} {
		want := "Move the cue ball 4 inches out."
		if !state.IsOpen() {
			want = "Said then: “Move the cue ball 4 inches out.”"
		}
		if lines := movedOut(state).Lines(); !slices.Contains(lines, want) {
			t.Errorf("%s: %q", state, lines)
		}
	}
}

// What older breaks have settled is not unknown again for the next ten.
func TestVerdict_StaysWhatItWas(t *testing.T) {
	under := movedOut(coaching.Helped)
	since := func(outcome advice.Outcome, count, of int) *advice.FollowUp {
		return &advice.FollowUp{Measure: "wing ball", CountBefore: 2, OfBefore: 10, CountAfter: count, OfAfter: of, Outcome: outcome}
	}
	other := &advice.FollowUp{Measure: "good breaks", CountBefore: 4, OfBefore: 10, CountAfter: 9, OfAfter: 20, Outcome: advice.InTrial}
	for name, c := range map[string]struct {
		followUp *advice.FollowUp
		before   bool
		says     string
	}{
		"as it was found":      {since(advice.Helped, 9, 10), false, "It helped: / Wing ball: 2 of 10 before, then 9 of 10."},
		"found only later":     {since(advice.InTrial, 4, 8), false, "Not known then: / Wing ball: 2 of 10 before, then 4 of 8."},
		"after it was found":   {since(advice.InTrial, 12, 20), true, "It helped: / Wing ball: 2 of 10 before, 9 of 10 when that was found, 12 of 20 with these breaks."},
		"otherwise later":      {since(advice.Hurt, 9, 40), true, "It hurt: / Wing ball: 2 of 10 before, then 9 of 40."},
		"something else later": {other, true, "It helped: / Wing ball: 2 of 10 before, then 9 of 10."},
		"nothing later":        {nil, true, "It helped: / Wing ball: 2 of 10 before, then 9 of 10."},
	} {
		v := AdviceView{Advice: advice.Advice{FollowUp: c.followUp}, Under: &under, SettledBefore: c.before}
		heading, _, _ := strings.Cut(v.verdictWords(), ": ")
		if says := heading + ": / " + v.verdictCounts(); says != c.says {
			t.Errorf("%s: %q, want %q", name, says, c.says)
		}
	}
	under = movedOut(coaching.InTrial)
	v := AdviceView{Advice: advice.Advice{FollowUp: since(advice.InTrial, 4, 8)}, Under: &under}
	if says := v.verdictWords(); !strings.HasPrefix(says, "Not known yet: ") {
		t.Errorf("while it is tried: %q", says)
	}
}

// A tag beside a set speaks of the change that was made from it, never of the set, nor as
// a student does who is in pain.
func TestStateTag_SpeaksOfTheChange(t *testing.T) {
	for _, state := range []coaching.State{coaching.InTrial, coaching.Helped, coaching.NoDifference, coaching.Hurt, coaching.Superseded} {
		if tag := StateTag(state); !strings.HasPrefix(tag, "its change ") || strings.Contains(tag, "hurt") {
			t.Errorf("%s: %q", state, tag)
		}
	}
}

func TestBecauseWords_CountsTheMisses(t *testing.T) {
	for of, want := range map[int]string{
		9: "because seven of the nine misses that were noted pointed the same way", 7: "because all seven misses that were noted pointed the same way",
	} {
		if says := BecauseWords(coaching.Change{Rule: "wing-miss-balance", Count: 7, Of: of}); says != want {
			t.Errorf("%q, want %q", says, want)
		}
	}
}
