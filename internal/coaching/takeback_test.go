package coaching_test

import (
	"errors"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"breakwright/internal/coaching"
	"breakwright/internal/table"
)

// A set that was closed and is opened again leaves the book as it was, but for
// the counts of the trial, which are known when it is closed again.
func TestTakeBackClosing_AsItWas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := &coaching.Book{}
		out := func(what string) table.Inches { return table.Inches(rapid.IntRange(10, 13).Draw(t, what)) }
		closes(b, proposal(1, out("before"), out("after")), start)
		answer := rapid.SampledFrom([]coaching.State{"", coaching.Approved, coaching.Declined}).Draw(t, "answer")
		if answer != "" {
			_ = b.Decide(coaching.ID{1}, coaching.Decision{Decision: answer, At: start})
		}
		if answer == coaching.Approved && rapid.Bool().Draw(t, "played") {
			begins(b, 20, b.Find(coaching.ID{1}).After().Cue.X*-1, nine, 1)
		}
		was := slices.Clone(b.Changes)
		b.Conclude(coaching.ID{1}, coaching.ID{30}, rapid.SampledFrom([]coaching.State{"", coaching.Helped, coaching.Hurt}).Draw(t, "outcome"),
			coaching.Counts{Measure: "wing ball", OfSince: 10})
		reopened := coaching.ClosedSet{Set: coaching.ID{30}, Lineage: lineage, Kind: nine, At: start.Add(time.Hour)}
		if rapid.Bool().Draw(t, "asks for something") {
			reopened.Proposal = proposal(2, out("before"), out("after"))
		}
		b.CloseSet(reopened)
		if err := b.ReopenSet(coaching.ID{30}, start.Add(2*time.Hour)); err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(b.Changes, was) {
			t.Fatalf("opened again the book is\n%+v, it was\n%+v", b.Changes, was)
		}
	})
}

func TestTakeBackClosing_NotAfterADecision(t *testing.T) {
	b := &coaching.Book{}
	closes(b, proposal(1, 18, 22), start)
	decided(t, b, 1, coaching.Approved, 0)
	var refusal coaching.Refusal
	if err := b.ReopenSet(coaching.ID{101}, start); !errors.As(err, &refusal) {
		t.Errorf("a coach has decided: %v", err)
	}
	checkState(t, b, 1, coaching.Approved, "")
}

// A set begun by a slip of the thumb, at another table or under another setup,
// and put away: the change that it left or told waits as before.
func TestTakeBackStart_AsItWas(t *testing.T) {
	for name, slip := range map[string]func(*coaching.Book){
		"another table": func(b *coaching.Book) { begins(b, 20, 22, table.SevenFoot(), 0) },
		"another setup": func(b *coaching.Book) { begins(b, 20, 12, nine, 0) },
		"the change":    func(b *coaching.Book) { begins(b, 20, 22, nine, 1) },
	} {
		b := &coaching.Book{}
		closes(b, proposal(1, 18, 22), start)
		decided(t, b, 1, coaching.Approved, 0)
		was := b.Changes[0]
		slip(b)
		if b.Changes[0] == was {
			t.Fatalf("%s: nothing happened", name)
		}
		b.TakeBackStart(coaching.ID{20}, start)
		if b.Changes[0] != was {
			t.Errorf("%s: %+v, it was %+v", name, b.Changes[0], was)
		}
	}
}

// A set without a drill does not end the trial of one.
func TestCloseSet_TrainingDoesNotEndATrial(t *testing.T) {
	b := &coaching.Book{}
	closes(b, proposal(1, 18, 22), start)
	decided(t, b, 1, coaching.Approved, 0)
	begins(b, 20, 22, nine, 1)
	b.CloseSet(coaching.ClosedSet{Set: coaching.ID{21}, Kind: nine, Proposal: proposal(2, 22, 23), At: start.Add(time.Hour)})
	checkState(t, b, 1, coaching.InTrial, "")
	checkState(t, b, 2, coaching.Superseded, coaching.CoachWaits)
}
