package coaching

import "breakwright/internal/drill"

// Part names a part of a setup that a change can touch.
type Part string

// The parts, in the order a student takes them. Their names are those of the
// adviser, who never moves the cue ball behind the head string.
const (
	Place   Part = "place"
	Behind  Part = "behind"
	Contact Part = "contact"
	Tip     Part = "tip"
	Spin    Part = "spin"
	Speed   Part = "speed"
	Rack    Part = "rack"
)

// ChangedParts lists what is another in the second setup, at the grain in which
// setups are told apart; both are seen from the side of the second.
func ChangedParts(before, after drill.Setup) []Part {
	a, b := before.ForSide(after.Side).Rounded(), after.Rounded()
	var parts []Part
	for _, p := range []struct {
		part  Part
		other bool
	}{
		{Place, a.Cue.X != b.Cue.X}, {Behind, a.Cue.Y != b.Cue.Y}, {Contact, a.Contact != b.Contact}, {Tip, a.Tip != b.Tip},
		{Spin, a.Spin != b.Spin}, {Speed, a.Speed != b.Speed}, {Rack, a.Order != b.Order},
	} {
		if p.other {
			parts = append(parts, p.part)
		}
	}
	return parts
}
