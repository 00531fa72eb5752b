package demo

import (
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// manner is how the coach answers a proposal: with a decision, or not yet.
type manner func(before, proposed drill.Setup) (d store.Decision, decides bool)

func approves(_, _ drill.Setup) (store.Decision, bool) {
	return store.Decision{Answer: store.Approved}, true
}

func leaves(_, _ drill.Setup) (store.Decision, bool) { return store.Decision{}, false }

func declines(_, _ drill.Setup) (store.Decision, bool) {
	return store.Decision{Answer: store.Declined, Note: "Half of these were from loose racks, I was there. Ten more with a tight rack first."}, true
}

func halves(before, proposed drill.Setup) (store.Decision, bool) {
	return store.Decision{
		Answer: store.Changed, Setup: along(before, proposed, 0.5),
		Note: "The right way, but half of it first. We look again after ten.",
	}, true
}

// reverses is a coach's mistake, for the adviser to find out.
func reverses(before, proposed drill.Setup) (store.Decision, bool) {
	return store.Decision{
		Answer: store.Changed, Setup: along(before, proposed, -1),
		Note: "I would try the other way with you.",
	}, true
}

// along goes that share of the way from one setup to another, in every part
// that has a size.
func along(from, to drill.Setup, share float64) drill.Setup {
	s := from
	s.Cue.X += (to.Cue.X - from.Cue.X) * table.Inches(share)
	s.Cue.Y += (to.Cue.Y - from.Cue.Y) * table.Inches(share)
	s.Contact += (to.Contact - from.Contact) * table.Inches(share)
	s.Tip += (to.Tip - from.Tip) * drill.Fraction(share)
	s.Spin += (to.Spin - from.Spin) * drill.Fraction(share)
	s.Speed += (to.Speed - from.Speed) * table.Mph(share)
	return s.Rounded()
}
