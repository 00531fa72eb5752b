package coaching

import (
	"slices"
	"time"
)

// ReopenSet notes that a closed set is open again. What it proposed goes;
// what it ended is taken up again, unless something newer is open by now; what
// it counted is not known until it is closed again. A [Refusal] when a coach has
// decided on what it said.
func (b *Book) ReopenSet(set ID, at time.Time) error {
	for _, c := range b.Changes {
		if c.Set == set && c.Decision != "" && c.State != Withdrawn {
			return Refusal("a coach has decided on what this set says, and it stays as it is until that is taken back")
		}
	}
	b.Changes = slices.DeleteFunc(b.Changes, func(c Change) bool { return c.Set == set && c.Decision == "" })
	for i := range b.Changes {
		c := &b.Changes[i]
		if c.By != (ID{}) && b.Find(c.By) == nil {
			c.By = ID{}
		}
		if c.Last == set && !c.wasLeft() {
			c.Counts = Counts{}
			b.takeUpAgain(c, at)
		}
	}
	return nil
}

// TakeBackStart notes that a set was not begun as it seemed: it holds nothing,
// or was broken elsewhere. It must be open or its closing taken back. What it
// told waits to be told again, and what it left is taken up again.
func (b *Book) TakeBackStart(set ID, at time.Time) {
	for i := range b.Changes {
		c := &b.Changes[i]
		if c.FirstSet == set && !c.State.IsOutcome() {
			c.FirstSet, c.FirstSetAt = ID{}, time.Time{}
			if c.State == InTrial {
				c.State = c.Decision
			}
		}
	}
	for i := range b.Changes {
		if c := &b.Changes[i]; c.Last == set && c.wasLeft() {
			b.takeUpAgain(c, at)
		}
	}
}

// wasLeft reports whether the beginning of a set superseded the change.
func (c Change) wasLeft() bool { return c.Because == AnotherSetup || c.Because == AnotherTable }

// takeUpAgain opens a change again that a set had brought to an end, or closes it
// for what is open in its place.
func (b *Book) takeUpAgain(c *Change, at time.Time) {
	c.Last = ID{}
	if c.State.IsOpen() {
		return
	}
	open := b.Open(c.Kind)
	switch {
	case open == nil && c.State == Superseded:
		c.resume()
	case open == nil:
		c.State = InTrial
	case c.State != Superseded:
		c.supersede(NewerChange, open.ID, ID{}, at)
	}
}
