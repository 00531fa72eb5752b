package coaching_test

import (
	"testing"
	"time"

	"breakwright/internal/coaching"
	"breakwright/internal/table"
)

var otherLineage = coaching.ID{2}

// checkFollows looks how far out a drill has the student break after what stands.
func checkFollows(t *testing.T, b *coaching.Book, d coaching.AssignedDrill, want table.Inches) {
	t.Helper()
	got := d.Setup.Cue.X
	if c := b.Standing(d); c != nil {
		got = c.After().ForSide(d.Setup.Side).Cue.X
	}
	if got != -want {
		t.Errorf("the drill of lineage %v, %s in out of itself, is broken from %s, want %s", d.Lineage[0], d.Setup.Cue.X, got, -want)
	}
}

// own decides a change that nobody proposed, made from a set of the first drill.
func own(t *testing.T, b *coaching.Book, id byte, from, to table.Inches) {
	t.Helper()
	c := coaching.Change{ID: coaching.ID{id}, Set: coaching.ID{100 + id}, Lineage: lineage, Kind: nine, Before: at(from, nine)}
	if err := b.DecideOwn(c, coaching.Decision{Setup: at(to, nine), At: start.Add(time.Duration(id) * time.Hour)}); err != nil {
		t.Fatal(err)
	}
}

// Of two drills with the very same setup both go on from what was decided, step by
// step; a drill of another setup, and one on another kind of table, do not.
func TestStanding_EveryDrillOfThatSetupFollows(t *testing.T) {
	b := &coaching.Book{}
	same, other, elsewhere := assigned(otherLineage, 18, nine), assigned(otherLineage, 12, nine), assigned(otherLineage, 18, seven)
	closes(b, proposal(1, 18, 22), start)
	if c := b.Latest(same); c == nil || b.Standing(same) != nil {
		t.Errorf("of what is proposed the drill knows %+v", c)
	}
	if c := b.Latest(other); c != nil {
		t.Errorf("a drill of another setup knows of %+v", c)
	}
	decided(t, b, 1, coaching.Approved, 0)
	checkFollows(t, b, same, 22)
	begins(b, 20, 22, nine, 1)
	own(t, b, 30, 22, 20)
	checkFollows(t, b, same, 20)
	checkFollows(t, b, assigned(lineage, 18, nine), 20)
	checkFollows(t, b, other, 12)
	checkFollows(t, b, elsewhere, 18)
	if c := b.Latest(same); c.ID != (coaching.ID{30}) {
		t.Errorf("the latest change is %v", c.ID)
	}
	// A drill that is written for what the other has come to goes on from there.
	checkFollows(t, b, assigned(otherLineage, 22, nine), 20)
}

// A coach who thinks again from the same set, before the first decision was met or while
// it is tried, means every drill that followed it; one who turns to another drill does not.
func TestStanding_ADecisionInThePlaceOfAnother(t *testing.T) {
	for _, met := range []bool{false, true} {
		b := &coaching.Book{}
		closes(b, proposal(1, 18, 22), start)
		decided(t, b, 1, coaching.Approved, 0)
		if met {
			begins(b, 20, 22, nine, 1)
		}
		own(t, b, 30, 18, 14)
		checkFollows(t, b, assigned(otherLineage, 18, nine), 14)
		own(t, b, 31, 18, 15)
		checkFollows(t, b, assigned(otherLineage, 18, nine), 15)
		if err := b.Reopen(coaching.ID{31}, start); err != nil {
			t.Fatal(err)
		}
		checkFollows(t, b, assigned(otherLineage, 18, nine), 14)
		own(t, b, 32, 12, 10)
		checkFollows(t, b, assigned(otherLineage, 18, nine), 14)
	}
}

// A change of one side is that of the other only for who changed sides.
func TestStanding_TurnsWithTheStudent(t *testing.T) {
	b := &coaching.Book{}
	closes(b, proposal(1, 18, 22), start)
	decided(t, b, 1, coaching.Approved, 0)
	right := assigned(otherLineage, 18, nine)
	right.Setup = right.Setup.Mirror()
	if c := b.Standing(right); c == nil || b.Latest(right) == nil {
		t.Errorf("who changed sides stands by %+v", c)
	}
	right.AnySide = false
	if b.Standing(right) != nil || b.Latest(right) != nil {
		t.Error("a change from the left stands in a drill from the right")
	}
}

// A set of the other drill under the decided setup tries the change, one under the setup
// before it lets it wait, and one that asks for nothing answers the proposal. Training
// does none of this.
func TestBook_SetsOfTheOtherDrill(t *testing.T) {
	decidedBook := func() *coaching.Book {
		b := &coaching.Book{}
		closes(b, proposal(1, 18, 22), start)
		decided(t, b, 1, coaching.Approved, 0)
		return b
	}
	b := decidedBook()
	b.StartSet(coaching.SetStart{Set: coaching.ID{20}, Lineage: otherLineage, Kind: nine, Setup: at(18, nine), At: start.Add(2 * time.Hour)})
	checkState(t, b, 1, coaching.Approved, "")
	b.StartSet(coaching.SetStart{Set: coaching.ID{21}, Lineage: otherLineage, Kind: nine, Setup: at(22, nine), Under: coaching.ID{1}, At: start.Add(3 * time.Hour)})
	checkState(t, b, 1, coaching.InTrial, "")
	if b.InTrial(nine, otherLineage, at(22, nine)) == nil || b.InTrial(nine, lineage, at(22, nine)) == nil {
		t.Error("a set under the change does not try it")
	}
	if b.InTrial(nine, coaching.ID{}, at(22, nine)) != nil {
		t.Error("training tries the change of a drill")
	}
	for by, want := range map[coaching.ID]coaching.State{otherLineage: coaching.Superseded, {}: coaching.Proposed} {
		b := &coaching.Book{}
		closes(b, proposal(1, 18, 22), start)
		b.CloseSet(coaching.ClosedSet{Set: coaching.ID{20}, Lineage: by, Kind: nine, Setup: at(18, nine), At: start.Add(time.Hour)})
		if c := b.Find(coaching.ID{1}); c.State != want {
			t.Errorf("after a set of %v that asks for nothing, the proposal is %q", by, c.State)
		}
	}
}
