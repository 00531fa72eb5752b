package coaching

import (
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Book holds the changes of one student, in any order. Its methods apply what
// happens; at most one change is open for each kind of table before and after
// each of them.
type Book struct{ Changes []Change }

// Find returns the change of that id, nil when there is none.
func (b *Book) Find(id ID) *Change {
	for i := range b.Changes {
		if b.Changes[i].ID == id {
			return &b.Changes[i]
		}
	}
	return nil
}

// Open returns the open change on a kind of table, nil when there is none.
func (b *Book) Open(k table.Kind) *Change {
	for i := range b.Changes {
		if c := &b.Changes[i]; c.State.IsOpen() && c.Kind == k {
			return c
		}
	}
	return nil
}

// ClosedSet is a set that is closed.
type ClosedSet struct {
	// Lineage is that of its drill, zero for none.
	Set, Lineage ID
	Kind         table.Kind
	Setup        drill.Setup
	// Proposal is what its advice proposes, nil for nothing.
	Proposal *Change
	At       time.Time
}

// CloseSet notes that a set was closed. An older proposal gives way: to the newer one,
// or to a newer set of its own drill, or of another under the setup it was made from,
// that asks for nothing new. A decision that
// still waits to be played does not, and one in trial does not for a set without
// a drill: then the proposal is kept in the book as superseded. So is one that asks for
// what a decision has the drill tell already, which the set was not broken by.
func (b *Book) CloseSet(s ClosedSet) {
	open, waiting := b.Open(s.Kind), b.findWaitingInstruction(s)
	asksNothingNew := s.Proposal == nil || waiting != nil
	if asksNothingNew && open != nil && open.State == Proposed && open.isAskedAgainBy(s) {
		open.supersede(NewerSet, ID{}, s.Set, s.At)
	}
	if s.Proposal == nil {
		return
	}
	made := *s.Proposal
	made.State, made.Set, made.Kind, made.Lineage, made.Created = Proposed, s.Set, s.Kind, s.Lineage, s.At
	switch {
	case waiting != nil:
		made.supersede(CoachWaits, waiting.ID, s.Set, s.At)
	case open == nil:
	case open.isWaiting(), open.State == InTrial && s.Lineage == ID{}:
		made.supersede(CoachWaits, open.ID, s.Set, s.At)
	case open.State == Proposed && open.isProposedAgainBy(made):
		open.supersede(SameAgain, made.ID, s.Set, s.At)
	default:
		open.supersede(NewerChange, made.ID, s.Set, s.At)
	}
	b.Changes = append(b.Changes, made)
}

// findWaitingInstruction returns the decision by which the set's drill tells what its proposal asks
// for, nil for none.
func (b *Book) findWaitingInstruction(s ClosedSet) *Change {
	if s.Proposal == nil {
		return nil
	}
	standing := b.Standing(AssignedDrill{Lineage: s.Lineage, Kind: s.Kind, Setup: s.Setup, AnySide: true})
	if standing == nil || standing.After().ForSide(s.Setup.Side).Rounded() != s.Proposal.Proposed.Rounded() {
		return nil
	}
	return standing
}

// ComesFirst returns the decision that comes before what a set said when it was closed: the
// one for which its proposal was not put forward or, where it has no record of a change,
// one that still waits to be played in its drill. nil for none.
func (b *Book) ComesFirst(s ClosedSet) *Change {
	var waiting, made *Change
	for i := range b.Changes {
		switch c := &b.Changes[i]; {
		case c.State == Withdrawn:
		case c.Set == s.Set:
			if made == nil || !c.Created.Before(made.Created) {
				made = c
			}
		case c.isWaiting() && c.Kind == s.Kind && c.Created.Before(s.At) && c.isAskedAgainBy(s):
			waiting = c
		}
	}
	switch {
	case made == nil:
		return waiting
	case made.Because == CoachWaits:
		if first := b.Find(made.By); first != nil && first.isInForce() {
			return first
		}
	}
	return nil
}

// isAskedAgainBy reports whether a set asks what the proposal was made from. Training
// asks nothing of a drill.
func (c Change) isAskedAgainBy(s ClosedSet) bool {
	return c.Lineage == s.Lineage || s.Lineage != ID{} && c.Before.ForSide(s.Setup.Side).SameAs(s.Setup)
}

// isProposedAgainBy reports whether a newer proposal asks for the very same, whichever side
// it is broken from.
func (c Change) isProposedAgainBy(newer Change) bool {
	side := newer.Proposed.Side
	return c.Before.ForSide(side).Rounded() == newer.Before.ForSide(side).Rounded() && c.Proposed.ForSide(side).Rounded() == newer.Proposed.Rounded()
}

// SetStart is a set that begins.
type SetStart struct {
	Set, Lineage ID
	Kind         table.Kind
	Setup        drill.Setup
	// Under is the decided change whose setup it is begun under; zero for none.
	Under ID
	At    time.Time
}

// StartSet records a set that begins. The change it is begun under is told by
// it and in trial; one that was left for another table or setup is taken up
// again. Decided changes that this set leaves are superseded: on this kind of
// table by another setup, on others by another table. A decision that the
// student has not met yet survives a set under the setup before it.
func (b *Book) StartSet(s SetStart) {
	for i := range b.Changes {
		c := &b.Changes[i]
		if c.ID == s.Under || !c.State.IsOpen() || c.State == Proposed {
			continue
		}
		switch {
		case c.Kind != s.Kind:
			c.supersede(AnotherTable, ID{}, s.Set, s.At)
		case c.isWaiting() && c.Before.SameAs(s.Setup.ForSide(c.Before.Side)):
		default:
			c.supersede(AnotherSetup, ID{}, s.Set, s.At)
		}
	}
	under := b.Find(s.Under)
	if under == nil || s.Under == (ID{}) {
		return
	}
	if under.State == Superseded && b.Open(s.Kind) == nil {
		under.resume()
	}
	if under.isWaiting() {
		under.State = InTrial
		if under.FirstSet == (ID{}) {
			under.FirstSet, under.FirstSetAt = s.Set, s.At
		}
	}
}

// InTrial returns the change that a set of this setup tries out, nil for none. Training,
// without a drill, tries out no drill's change.
func (b *Book) InTrial(k table.Kind, lineage ID, setup drill.Setup) *Change {
	c := b.Open(k)
	if c == nil || c.State != InTrial || lineage == (ID{}) && c.Lineage != lineage || c.After().ForSide(setup.Side).Rounded() != setup.Rounded() {
		return nil
	}
	return c
}

// Conclude keeps how a trial stands after a set was closed, and its outcome: ""
// while it is not known.
func (b *Book) Conclude(id, set ID, outcome State, counts Counts) {
	c := b.Find(id)
	if c == nil || c.State != InTrial {
		return
	}
	if counts.Measure != "" {
		c.Counts, c.Last = counts, set
	}
	if outcome.IsOutcome() {
		c.State, c.Last = outcome, set
	}
}
