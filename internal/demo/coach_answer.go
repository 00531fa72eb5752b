package demo

import (
	"breakwright/internal/drill"
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// coachAnswer is how the coach answers a proposal: with a decision, or not yet.
type coachAnswer func(before, proposed drill.Setup) (d store.Decision, decides bool)

func approveChange(_, _ drill.Setup) (store.Decision, bool) {
	return store.Decision{Answer: store.Approved}, true
}

func leaveOpen(_, _ drill.Setup) (store.Decision, bool) { return store.Decision{}, false }

func declineChange(_, _ drill.Setup) (store.Decision, bool) {
	return store.Decision{Answer: store.Declined, Note: "Half of these were from loose racks, I was there. Ten more with a tight rack first."}, true
}

func halveChange(before, proposed drill.Setup) (store.Decision, bool) {
	return store.Decision{
		Answer: store.Changed, Setup: interpolateSetup(before, proposed, 0.5),
		Note: "The right way, but half of it first. We look again after ten.",
	}, true
}

// reverseChange is a coach's mistake, for the adviser to find out.
func reverseChange(before, proposed drill.Setup) (store.Decision, bool) {
	return store.Decision{
		Answer: store.Changed, Setup: interpolateSetup(before, proposed, -1),
		Note: "I would try the other way with you.",
	}, true
}

// interpolateSetup goes that share of the way from one setup to another, in every part
// that has a size.
func interpolateSetup(from, to drill.Setup, share float64) drill.Setup {
	s := from
	s.Cue.X += (to.Cue.X - from.Cue.X) * table.Inches(share)
	s.Cue.Y += (to.Cue.Y - from.Cue.Y) * table.Inches(share)
	s.Contact += (to.Contact - from.Contact) * table.Inches(share)
	s.Tip += (to.Tip - from.Tip) * drill.RadiusFraction(share)
	s.Spin += (to.Spin - from.Spin) * drill.RadiusFraction(share)
	s.Speed += (to.Speed - from.Speed) * table.Mph(share)
	return s.Rounded()
}
