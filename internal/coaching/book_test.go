package coaching_test

import (
	"errors"
	"testing"
	"time"

	"pgregory.net/rapid"

	"breakwright/internal/coaching"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

var (
	nine, seven = table.NineFoot(), table.SevenFoot()
	lineage     = coaching.ID{1}
	start       = time.Date(2026, 3, 2, 18, 0, 0, 0, time.UTC)
)

// at is the standard setup from the left with the cue ball so far out.
func at(out table.Inches, k table.Kind) drill.Setup {
	s := drill.StandardSetup(rack.NineBall, table.Left, k)
	s.Cue.X = -out
	return s
}

// assigned is a drill that tells the student the standard setup so far out.
func assigned(lineage coaching.ID, out table.Inches, k table.Kind) coaching.AssignedDrill {
	return coaching.AssignedDrill{Lineage: lineage, Kind: k, Setup: at(out, k), AnySide: true}
}

// proposal asks to move the cue ball after a set.
func proposal(id byte, from, to table.Inches) *coaching.Change {
	return &coaching.Change{
		ID: coaching.ID{id}, Set: coaching.ID{100 + id}, Rule: "wing-miss-balance", Before: at(from, nine), Proposed: at(to, nine),
	}
}

func decided(t *testing.T, b *coaching.Book, id byte, answer coaching.State, out table.Inches) {
	t.Helper()
	a := coaching.Decision{Decision: answer, At: start.Add(time.Hour)}
	if answer == coaching.Changed {
		a.Setup = at(out, nine)
	}
	if err := b.Decide(coaching.ID{id}, a); err != nil {
		t.Fatal(err)
	}
}

func begins(b *coaching.Book, set byte, out table.Inches, k table.Kind, under byte) {
	b.StartSet(coaching.SetStart{
		Set: coaching.ID{set}, Lineage: lineage, Kind: k, Setup: at(out, k), Under: coaching.ID{under}, At: start.Add(time.Duration(set) * time.Hour),
	})
}

func closes(b *coaching.Book, proposal *coaching.Change, at time.Time) {
	b.CloseSet(coaching.ClosedSet{Set: proposal.Set, Lineage: lineage, Kind: nine, Proposal: proposal, At: at})
}

func checkState(t *testing.T, b *coaching.Book, id byte, want coaching.State, because coaching.SupersededBy) {
	t.Helper()
	if c := b.Find(coaching.ID{id}); c.State != want || c.Because != because {
		t.Errorf("change %d is %q (%q), want %q (%q)", id, c.State, c.Because, want, because)
	}
}

// A set that was broken as an older page or sheet had it asks for what the coach decided:
// the drill tells that already, and the coach is not asked again. What it asks for besides
// is put to them.
func TestBook_WhatTheDrillTellsIsNotProposed(t *testing.T) {
	for to, want := range map[table.Inches]coaching.State{22: coaching.Superseded, 20: coaching.Proposed} {
		b := &coaching.Book{}
		closes(b, proposal(1, 18, 22), start)
		decided(t, b, 1, coaching.Approved, 0)
		begins(b, 20, 22, nine, 1)
		begins(b, 21, 18, nine, 0)
		checkState(t, b, 1, coaching.Superseded, coaching.AnotherSetup)
		b.CloseSet(coaching.ClosedSet{Set: coaching.ID{21}, Lineage: lineage, Kind: nine, Setup: at(18, nine), Proposal: proposal(2, 18, to), At: start.Add(40 * time.Hour)})
		if c := b.Find(coaching.ID{2}); c.State != want {
			t.Errorf("a proposal of %v in out, where 22 is told, is %q (%q)", to, c.State, c.Because)
		}
	}
}

func TestBook_FromProposalToHelped(t *testing.T) {
	b := &coaching.Book{}
	closes(b, proposal(1, 18, 22), start)
	decided(t, b, 1, coaching.Changed, 14)
	if s := b.Standing(assigned(lineage, 18, nine)); s == nil || s.After().Cue.X != -14 {
		t.Fatalf("what stands is %+v", s)
	}
	begins(b, 20, 14, nine, 1)
	checkState(t, b, 1, coaching.InTrial, "")
	c := b.InTrial(nine, lineage, at(14, nine))
	if c == nil || c.FirstSet != (coaching.ID{20}) {
		t.Fatalf("in trial is %+v", c)
	}
	counts := coaching.Counts{Measure: "wing ball", Before: 2, OfBefore: 10, Since: 6, OfSince: 10}
	b.Conclude(c.ID, coaching.ID{20}, "", counts)
	checkState(t, b, 1, coaching.InTrial, "")
	b.Conclude(c.ID, coaching.ID{20}, coaching.Helped, coaching.Counts{})
	if c.State != coaching.Helped || c.Counts != counts || c.Proposed.Cue.X != -22 {
		t.Errorf("at the end it is %+v", c)
	}
}

func TestStartSet_WhatIsLeftIsSuperseded(t *testing.T) {
	for name, c := range map[string]struct {
		out   table.Inches
		kind  table.Kind
		state coaching.State
		cause coaching.SupersededBy
	}{
		"the setup before, on a phone that had not heard": {18, nine, coaching.Approved, ""},
		"another setup": {12, nine, coaching.Superseded, coaching.AnotherSetup},
		"another table": {14, seven, coaching.Superseded, coaching.AnotherTable},
	} {
		b := &coaching.Book{}
		closes(b, proposal(1, 18, 22), start)
		decided(t, b, 1, coaching.Approved, 0)
		begins(b, 20, c.out, c.kind, 0)
		if got := b.Find(coaching.ID{1}); got.State != c.state || got.Because != c.cause {
			t.Errorf("%s: %q (%q)", name, got.State, got.Because)
		}
		begins(b, 21, 22, nine, 1)
		if got := b.Find(coaching.ID{1}); got.State != coaching.InTrial || got.FirstSet != (coaching.ID{21}) {
			t.Errorf("%s, and back: %q told by %v", name, got.State, got.FirstSet)
		}
	}
}

func TestCloseSet_ADecisionThatWaitsIsNotPushedAside(t *testing.T) {
	b := &coaching.Book{}
	closes(b, proposal(1, 18, 22), start)
	decided(t, b, 1, coaching.Approved, 0)
	closes(b, proposal(2, 18, 23), start.Add(2*time.Hour))
	checkState(t, b, 1, coaching.Approved, "")
	checkState(t, b, 2, coaching.Superseded, coaching.CoachWaits)
}

// A decision comes first on the page of a set that was broken without it, whether that asked
// for something or for nothing, and of no other set.
func TestComesFirst(t *testing.T) {
	b := &coaching.Book{}
	first := coaching.ClosedSet{Set: coaching.ID{101}, Lineage: lineage, Kind: nine, Setup: at(18, nine), At: start}
	older := coaching.ClosedSet{Set: coaching.ID{102}, Lineage: lineage, Kind: nine, Setup: at(18, nine), At: start.Add(2 * time.Hour)}
	elsewhere, other, before := older, older, older
	elsewhere.Kind, elsewhere.Setup = seven, at(14, seven)
	other.Lineage, other.Setup = coaching.ID{2}, at(14, nine)
	before.At = start.Add(-time.Hour)
	closes(b, proposal(1, 18, 22), start)
	if got := b.ComesFirst(older); got != nil {
		t.Errorf("undecided, %v comes first", got.ID)
	}
	decided(t, b, 1, coaching.Approved, 0)
	for name, s := range map[string]coaching.ClosedSet{"the set it was made from": first, "another table": elsewhere, "another drill": other, "a set before": before} {
		if got := b.ComesFirst(s); got != nil {
			t.Errorf("on %s, %v comes first", name, got.ID)
		}
	}
	if got := b.ComesFirst(older); got == nil || got.ID != (coaching.ID{1}) {
		t.Errorf("where nothing was proposed, %v comes first", got)
	}
	closes(b, proposal(2, 18, 23), older.At)
	begins(b, 20, 22, nine, 1) // it waits no more
	if got := b.ComesFirst(older); got == nil || got.ID != (coaching.ID{1}) {
		t.Errorf("beside what was not put forward, %v comes first", got)
	}
	newer := older
	newer.Set, newer.At = coaching.ID{103}, start.Add(30*time.Hour)
	if got := b.ComesFirst(newer); got != nil {
		t.Errorf("once it is tried, %v comes first", got.ID)
	}
}

func TestReopen_OnlyUntilTheNextSet(t *testing.T) {
	b := &coaching.Book{}
	closes(b, proposal(1, 18, 22), start)
	decided(t, b, 1, coaching.Declined, 0)
	if b.CanReopen(coaching.ID{1}, start.Add(2*time.Hour)) {
		t.Error("a set was begun since it was declined, and it can be reopened")
	}
	if err := b.Reopen(coaching.ID{1}, start); err != nil {
		t.Fatal(err)
	}
	checkState(t, b, 1, coaching.Proposed, "")
	decided(t, b, 1, coaching.Approved, 0)
	begins(b, 20, 22, nine, 1)
	var refusal coaching.Refusal
	if err := b.Reopen(coaching.ID{1}, start); !errors.As(err, &refusal) {
		t.Errorf("in trial, it is reopened: %v", err)
	}
}

func TestReopen_OwnGivesBackWhatItReplaced(t *testing.T) {
	b := &coaching.Book{}
	closes(b, proposal(1, 18, 22), start)
	decided(t, b, 1, coaching.Approved, 0)
	own := coaching.Change{ID: coaching.ID{2}, Set: coaching.ID{101}, Lineage: lineage, Kind: nine, Before: at(18, nine)}
	answer := coaching.Decision{Setup: at(15, nine), At: start.Add(3 * time.Hour)}
	if err := b.DecideOwn(own, coaching.Decision{Setup: at(18, nine)}); err == nil {
		t.Error("a change that changes nothing is taken")
	}
	for range 2 { // a second click
		if err := b.DecideOwn(own, answer); err != nil {
			t.Fatal(err)
		}
	}
	checkState(t, b, 1, coaching.Superseded, coaching.NewerChange)
	if s := b.Standing(assigned(lineage, 18, nine)); s.ID != own.ID {
		t.Errorf("the coach's own does not stand: %+v", s)
	}
	if err := b.Reopen(own.ID, start); err != nil {
		t.Fatal(err)
	}
	checkState(t, b, 2, coaching.Withdrawn, "")
	checkState(t, b, 1, coaching.Approved, "")
	if s := b.Standing(assigned(lineage, 18, nine)); s.ID != (coaching.ID{1}) {
		t.Errorf("withdrawn, what stands is %+v", s)
	}
}

func TestDecide_TheProposedSetupIsAnApproval(t *testing.T) {
	b := &coaching.Book{}
	closes(b, proposal(1, 18, 22), start)
	if err := b.Decide(coaching.ID{1}, coaching.Decision{Decision: coaching.Changed, Setup: at(18, nine)}); err == nil {
		t.Error("changed to what it was before")
	}
	decided(t, b, 1, coaching.Changed, 22)
	checkState(t, b, 1, coaching.Approved, "")
}

// Whatever happens in whatever order: at most one change is open for each kind
// of table, a proposal is never altered, and only what was told is in trial or
// has come to something.
func TestBook_HoldsWhateverHappens(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, now, next := &coaching.Book{}, start, byte(0)
		lastStart := map[table.Kind]time.Time{}
		asked := map[coaching.ID]drill.Setup{}
		kind := func() table.Kind { return rapid.SampledFrom([]table.Kind{nine, seven}).Draw(t, "kind") }
		out := func() table.Inches { return table.Inches(rapid.IntRange(10, 15).Draw(t, "out")) }
		some := func() coaching.ID {
			if len(b.Changes) == 0 {
				return coaching.ID{}
			}
			return b.Changes[rapid.IntRange(0, len(b.Changes)-1).Draw(t, "which")].ID
		}
		tick := func() (id coaching.ID) {
			next++
			now = now.Add(time.Minute)
			return coaching.ID{next}
		}
		sets := []coaching.ID{}
		set := func() coaching.ID {
			if len(sets) > 0 && rapid.Bool().Draw(t, "that set") {
				return rapid.SampledFrom(sets).Draw(t, "set")
			}
			sets = append(sets, tick())
			return sets[len(sets)-1]
		}
		t.Repeat(map[string]func(*rapid.T){
			"take back a closing": func(t *rapid.T) { _ = b.ReopenSet(set(), now) },
			"take back a start":   func(t *rapid.T) { b.TakeBackStart(set(), now) },
			"close": func(t *rapid.T) {
				k := kind()
				c := &coaching.Change{ID: tick(), Rule: "r", Before: at(out(), k), Proposed: at(out(), k)}
				if rapid.Bool().Draw(t, "asks for nothing") {
					c = nil
				} else {
					asked[c.ID] = c.Proposed
				}
				b.CloseSet(coaching.ClosedSet{Set: set(), Lineage: lineage, Kind: k, Proposal: c, At: now})
			},
			"decide": func(t *rapid.T) {
				tick()
				d := rapid.SampledFrom([]coaching.State{coaching.Approved, coaching.Changed, coaching.Declined}).Draw(t, "answer")
				_ = b.Decide(some(), coaching.Decision{Decision: d, Setup: at(out(), nine), At: now})
			},
			"own": func(t *rapid.T) {
				k := kind()
				c := coaching.Change{ID: tick(), Kind: k, Lineage: lineage, Before: at(out(), k)}
				_ = b.DecideOwn(c, coaching.Decision{Setup: at(out(), k), At: now})
			},
			"reopen": func(t *rapid.T) {
				id := some()
				c := b.Find(id)
				if c == nil || c.State == coaching.Proposed || c.State == coaching.Withdrawn {
					return
				}
				can := b.CanReopen(id, lastStart[c.Kind])
				if err := b.Reopen(id, lastStart[c.Kind]); (err == nil) != can {
					t.Fatalf("can be reopened: %v, and then: %v", can, err)
				}
			},
			"start": func(t *rapid.T) {
				k := kind()
				s := coaching.SetStart{Set: set(), Lineage: lineage, Kind: k, Setup: at(out(), k), At: now}
				if c := b.Standing(assigned(lineage, 18, k)); c != nil && rapid.Bool().Draw(t, "as told") {
					s.Setup, s.Under = c.After(), c.ID
				}
				b.StartSet(s)
				lastStart[k] = now
			},
			"conclude": func(t *rapid.T) {
				outcome := rapid.SampledFrom([]coaching.State{"", coaching.Helped, coaching.Hurt, coaching.NoDifference}).Draw(t, "outcome")
				b.Conclude(some(), set(), outcome, coaching.Counts{Measure: "wing ball", OfSince: 10})
			},
			"": func(t *rapid.T) {
				open := map[table.Kind]int{}
				for _, c := range b.Changes {
					if c.State.IsOpen() {
						open[c.Kind]++
					}
					if want, rules := asked[c.ID]; rules && c.Proposed != want {
						t.Fatalf("the proposal %+v became %+v", want, c.Proposed)
					}
					isPlayed := c.FirstSet != coaching.ID{}
					if (c.State == coaching.InTrial || c.State.IsOutcome()) && !isPlayed {
						t.Fatalf("%q, and no set carried it", c.State)
					}
					if isPlayed && (c.Decision == "" || c.Decision == coaching.Declined) {
						t.Fatalf("told, and decided %q", c.Decision)
					}
					if (c.State == coaching.Superseded) != (c.Because != "") || (c.State == coaching.Proposed && c.Decision != "") {
						t.Fatalf("half a record: %+v", c)
					}
				}
				for k, n := range open {
					if n > 1 {
						t.Fatalf("%d changes are open on %s", n, k)
					}
				}
			},
		})
	})
}

// A proposal that a newer set makes again gives way to no other change.
func TestCloseSet_TheSameAgain(t *testing.T) {
	for name, c := range map[string]struct {
		newer *coaching.Change
		want  coaching.SupersededBy
	}{
		"the same":           {proposal(2, 18, 22), coaching.SameAgain},
		"further":            {proposal(2, 18, 23), coaching.NewerChange},
		"from another setup": {proposal(2, 17, 22), coaching.NewerChange},
	} {
		b := &coaching.Book{}
		closes(b, proposal(1, 18, 22), start)
		closes(b, c.newer, start.Add(time.Hour))
		if old := b.Find(coaching.ID{1}); old.State != coaching.Superseded || old.Because != c.want || old.By != (coaching.ID{2}) {
			t.Errorf("%s: the older is %q (%q)", name, old.State, old.Because)
		}
	}
	mirrored := proposal(2, 18, 22)
	mirrored.Before, mirrored.Proposed = mirrored.Before.Mirror(), mirrored.Proposed.Mirror()
	b := &coaching.Book{}
	closes(b, proposal(1, 18, 22), start)
	closes(b, mirrored, start.Add(time.Hour))
	checkState(t, b, 1, coaching.Superseded, coaching.SameAgain)
}
