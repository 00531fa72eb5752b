package coaching

import (
	"slices"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// A change is made from a setup, and it is of the student's stroke, not of the paper
// that the setup stood on: a coach of a student with two drills of the very same setup
// expects both to go on from what was decided. So a change is followed by the drill that
// it was made from, whoever has written that anew since, and by every other drill that
// tells the student the setup it was made from, on the same kind of table. A drill
// that tells another setup stays as it is.

// AssignedDrill is a drill as a coach gave it to a student, on a kind of table.
type AssignedDrill struct {
	Lineage ID
	Kind    table.Kind
	// Setup is what the drill itself says, the right way round for the student.
	Setup drill.Setup
	// AnySide says that the student may have changed sides since a change was made:
	// then those of the other side, turned round, count while none of this side stands.
	AnySide bool
}

// Standing returns the change whose setup a student is to break in a drill: the last
// that it follows of those that were decided and not declined; nil when the drill itself
// says it.
func (b *Book) Standing(d AssignedDrill) *Change {
	standing, _ := b.follow(d)
	return standing
}

// Latest returns the newest change that a drill follows, in whatever state, nil for
// none. What was taken back or never put to a coach is left out.
func (b *Book) Latest(d AssignedDrill) *Change {
	_, latest := b.follow(d)
	return latest
}

func (b *Book) follow(d AssignedDrill) (standing, latest *Change) {
	standing, latest = b.followFrom(d, func(c Change) bool { return c.After().Side == d.Setup.Side })
	if standing == nil && d.AnySide {
		return b.followFrom(d, func(Change) bool { return true })
	}
	return standing, latest
}

// followFrom goes through the changes of some sides as they came about.
func (b *Book) followFrom(d AssignedDrill, counts func(Change) bool) (standing, latest *Change) {
	for _, c := range b.inOrder() {
		if c.Kind != d.Kind || c.State == Withdrawn || c.Because == CoachWaits || !counts(*c) || !d.follows(*c, standing) {
			continue
		}
		if latest == nil || !c.Created.Before(latest.Created) {
			latest = c
		}
		if c.isInForce() {
			standing = c
		}
	}
	return standing, latest
}

// follows reports whether the drill goes on with c, when standing is what it followed
// last, nil for nothing.
func (d AssignedDrill) follows(c Change, standing *Change) bool {
	if c.Lineage == d.Lineage {
		return true
	}
	at := func(s drill.Setup) drill.Setup { return s.ForSide(d.Setup.Side).Rounded() }
	if standing == nil {
		return at(c.Before) == at(d.Setup)
	}
	// A coach can think again from the same set, also before the first decision is met.
	instead := standing.By == c.ID && at(c.Before) == at(standing.Before)
	return instead || at(c.Before) == at(standing.After())
}

// effectiveFrom is when a change began to say what is to be broken or, while it does not, when
// it was made.
func (c Change) effectiveFrom() time.Time {
	if c.isInForce() {
		return c.DecidedAt
	}
	return c.Created
}

// inOrder returns the changes as they came about.
func (b *Book) inOrder() []*Change {
	all := make([]*Change, len(b.Changes))
	for i := range b.Changes {
		all[i] = &b.Changes[i]
	}
	slices.SortStableFunc(all, func(c, o *Change) int { return c.effectiveFrom().Compare(o.effectiveFrom()) })
	return all
}
