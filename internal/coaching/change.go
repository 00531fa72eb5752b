package coaching

import (
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// ID names a change, a set, a drill or a person: the bytes of a UUID. The zero
// ID means none.
type ID [16]byte

// State is how far a change has come.
type State string

// The states: proposed by the rules → approved, changed or declined by a coach;
// or a coach's own from the start → in trial from the first set under it →
// helped, no difference or hurt. A change that gave way to another before it
// came to an end is superseded; a coach's own that was taken back before it was
// played is withdrawn.
const (
	Proposed     State = "proposed"
	Approved     State = "approved"
	Changed      State = "changed"
	Declined     State = "declined"
	Own          State = "own"
	InTrial      State = "in trial"
	Helped       State = "helped"
	NoDifference State = "no difference"
	Hurt         State = "hurt"
	Superseded   State = "superseded"
	Withdrawn    State = "withdrawn"
)

// IsOpen reports whether something is still to come: a decision, a first set or
// the end of a trial.
func (s State) IsOpen() bool {
	switch s {
	case Proposed, Approved, Changed, Own, InTrial:
		return true
	}
	return false
}

// IsOutcome reports whether the change was tried to the end.
func (s State) IsOutcome() bool { return s == Helped || s == NoDifference || s == Hurt }

// SupersededBy says why a change was superseded.
type SupersededBy string

// The causes.
const (
	NewerChange SupersededBy = "a newer change"
	// SameAgain is the cause of a proposal that a newer set made again, from the same setup.
	SameAgain    SupersededBy = "the same change again"
	NewerSet     SupersededBy = "a newer set"
	AnotherSetup SupersededBy = "another setup"
	AnotherTable SupersededBy = "another table"
	// CoachWaits is the cause of a proposal that came while a coach's decision
	// was still waiting to be played: it was never put to the coach.
	CoachWaits SupersededBy = "a decision waits to be played"
)

// Change is the record of one change of one student on one kind of table. What
// was proposed is never altered.
type Change struct {
	ID ID
	// Set is the set that it was made from, Lineage that of the set's drill.
	Set, Lineage ID
	Kind         table.Kind
	// Rule is what asked for it, "" for the coach's own, and Count of Of the
	// breaks or misses behind it; Of is 0 where nothing is counted.
	Rule      string
	Count, Of int
	// Before is the setup of Set, Proposed what the rules asked for (the zero
	// setup for the coach's own), and Chosen the coach's own setup (the zero
	// setup unless they changed the proposal or had none).
	Before, Proposed, Chosen drill.Setup
	Created                  time.Time

	State State
	// Decision is Approved, Changed, Declined or Own; "" before it is made.
	Decision  State
	DecidedBy ID
	DecidedAt time.Time
	Note      string

	// FirstSet is the first set that carried it, begun at FirstSetAt.
	FirstSet   ID
	FirstSetAt time.Time

	// SupersededAt, Because and By say when, why and by which change.
	SupersededAt time.Time
	Because      SupersededBy
	By           ID

	// Last is the set whose beginning or closing superseded it, or whose closing
	// counted it last; zero for none.
	Last ID

	// Counts are those since it is tried.
	Counts Counts
}

// Counts compare what was broken before a change and since, in what the change
// was about. Measure is "" before anything is known.
type Counts struct {
	Measure                          string
	Before, OfBefore, Since, OfSince int
}

// After is the setup that the change leads to: the coach's where they chose one,
// else the proposed one.
func (c Change) After() drill.Setup {
	if c.Chosen != (drill.Setup{}) {
		return c.Chosen
	}
	return c.Proposed
}

// IsOverruled reports whether a coach decided against what the rules said, or
// without them: the adviser is to know of it.
func (c Change) IsOverruled() bool {
	return c.Decision == Declined || c.Decision == Changed || c.Decision == Own && c.State != Withdrawn
}

// isInForce reports whether a coach's decision put a setup in place.
func (c Change) isInForce() bool {
	return c.Decision != "" && c.Decision != Declined && c.State != Withdrawn
}

// isWaiting reports whether it is decided, open, and no set has carried it.
func (c Change) isWaiting() bool {
	return c.State == Approved || c.State == Changed || c.State == Own
}

// supersede closes an open change; set is the one that brought it about, zero for
// a coach.
func (c *Change) supersede(because SupersededBy, by, set ID, at time.Time) {
	c.State, c.Because, c.By, c.SupersededAt, c.Last = Superseded, because, by, at, set
}

// resume takes a superseded change up again, at the place where it was left.
func (c *Change) resume() {
	c.Because, c.By, c.SupersededAt, c.Last = "", ID{}, time.Time{}, ID{}
	switch {
	case c.FirstSet != ID{}:
		c.State = InTrial
	case c.Decision != "":
		c.State = c.Decision
	default:
		c.State = Proposed
	}
}
