package coaching

import (
	"fmt"
	"time"

	"breakwright/internal/drill"
)

// Refusal says in a sentence why a decision cannot be made or taken back.
type Refusal string

func (r Refusal) Error() string { return string(r) }

// Decision is a coach's decision. What is Changed or Own has a Setup.
type Decision struct {
	Decision State
	Setup    drill.Setup
	Note     string
	By       ID
	At       time.Time
}

// Decide answers a proposal. The same answer again is harmless; another one is
// refused, and so is any once a newer change took its place. A setup that is the
// proposed one counts as approved.
func (b *Book) Decide(id ID, a Decision) error {
	c := b.Find(id)
	if c == nil {
		return Refusal("there is no such change")
	}
	if a.Decision != Changed {
		a.Setup = drill.Setup{}
	} else if a.Setup = a.Setup.Rounded(); a.Setup == c.Proposed.Rounded() {
		a.Decision, a.Setup = Approved, drill.Setup{}
	}
	switch {
	case c.Decision != "":
		return c.checkRepeat(a)
	case c.State != Proposed:
		return Refusal("a newer proposal has taken the place of this one")
	case a.Decision == Changed && a.Setup == c.Before.Rounded():
		return Refusal("this is the setup as it was: decline the change instead")
	}
	c.decide(a)
	return nil
}

func (c *Change) decide(a Decision) {
	c.State, c.Decision, c.Chosen = a.Decision, a.Decision, a.Setup
	c.Note, c.DecidedBy, c.DecidedAt = a.Note, a.By, a.At
}

func (c *Change) checkRepeat(a Decision) error {
	if c.Decision != a.Decision || c.Chosen.Rounded() != a.Setup.Rounded() || c.Note != a.Note {
		return Refusal(fmt.Sprintf("this was decided already: %s", c.Decision))
	}
	return nil
}

// DecideOwn puts a coach's own change into the book: ID, Set, Lineage, Kind and
// Before are taken from c. It takes the place of whatever is open on this kind
// of table. The same one again is harmless.
func (b *Book) DecideOwn(c Change, a Decision) error {
	a.Decision, a.Setup = Own, a.Setup.Rounded()
	if there := b.Find(c.ID); there != nil {
		return there.checkRepeat(a)
	}
	if a.Setup == c.Before.Rounded() {
		return Refusal("nothing is changed yet: change one part of the setup")
	}
	if open := b.Open(c.Kind); open != nil {
		open.supersede(NewerChange, c.ID, ID{}, a.At)
	}
	c.Rule, c.Proposed, c.Created = "", drill.Setup{}, a.At
	c.decide(a)
	b.Changes = append(b.Changes, c)
	return nil
}

// CanReopen reports whether a decision can still be taken back: no set has
// carried it, none has begun on this kind of table since the change was declined
// (lastStart is when the last one did), and nothing newer is open there.
func (b *Book) CanReopen(id ID, lastStart time.Time) bool { return b.checkReopen(id, lastStart) == nil }

func (b *Book) checkReopen(id ID, lastStart time.Time) error {
	c := b.Find(id)
	switch {
	case c == nil:
		return Refusal("there is no such change")
	case c.FirstSet != ID{}, c.State == Declined && lastStart.After(c.DecidedAt):
		return Refusal("the next set has begun: make a new change instead")
	case c.State != Declined && !c.isWaiting():
		return Refusal("this is not open any more: make a new change instead")
	}
	if open := b.Open(c.Kind); open != nil && open.ID != id {
		return Refusal("a newer change has taken its place")
	}
	return nil
}

// Reopen takes a decision back. A proposal waits for an answer again; a coach's
// own change is withdrawn, and what had given way to it is taken up again.
func (b *Book) Reopen(id ID, lastStart time.Time) error {
	if c := b.Find(id); c != nil && (c.State == Proposed || c.State == Withdrawn) {
		return nil // a second click
	}
	if err := b.checkReopen(id, lastStart); err != nil {
		return err
	}
	c := b.Find(id)
	if c.Decision != Own {
		c.State, c.Decision, c.Chosen = Proposed, "", drill.Setup{}
		c.DecidedBy, c.DecidedAt = ID{}, time.Time{}
		return nil
	}
	c.State = Withdrawn
	if older := b.latestGivenWay(id); older != nil {
		older.resume()
	}
	return nil
}

// latestGivenWay returns the newest change that gave way to that one, nil for
// none: the one it replaced, or a proposal that came while it waited.
func (b *Book) latestGivenWay(id ID) (latest *Change) {
	for i := range b.Changes {
		c := &b.Changes[i]
		if c.State == Superseded && c.By == id && (latest == nil || c.Created.After(latest.Created)) {
			latest = c
		}
	}
	return latest
}
