package advice

import (
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// What an ordinary good break from the left looks like, used only to choose
// between two explanations of the same pattern: the part of the setup that is
// further from ordinary, in the direction that explains it, is the likelier
// one (common practice, no source).
const (
	ordinaryTip   drill.RadiusFraction = -0.1
	ordinarySpeed table.Mph            = 18
	// ordinaryPlace is a fraction of the table's width from the long string.
	ordinaryPlace = 0.36
	// placePerContact is how far the place across does what an inch of contact
	// does: 4 in for 0.25 in. It follows from the angle between the cue ball's
	// line and the line of centres at the head ball.
	placePerContact = 16
)

// distanceOut is how far the cue ball stands from the long string.
func distanceOut(s drill.Setup) table.Inches { return table.FlipSign(s.Cue.X) }

// outermostDistance is the furthest out that is taught on this kind of table.
func outermostDistance(k table.Kind) table.Inches { return drill.OutermostCue(k) }

// setupMisfit says how far each part is from ordinary, in steps of its own: 0.1 in
// of contact, a tenth of a radius, an inch of place, a mile an hour. Positive
// is right of full, high, far out, fast.
type setupMisfit struct {
	contact, tip, place, speed float64
}

func measureMisfit(s drill.Setup, k table.Kind) setupMisfit {
	return setupMisfit{
		contact: float64(s.Contact) / 0.1,
		tip:     float64(s.Tip-ordinaryTip) / 0.1,
		place:   float64(distanceOut(s)) - ordinaryPlace*float64(k.Width()),
		speed:   float64(s.Speed - ordinarySpeed),
	}
}

// doubtBenefit is the share of the benefit of the doubt that a part of the setup has:
// all of it while it is not off the way that would explain a pattern, none once it
// is far off that way.
func doubtBenefit(off, farOff float64) float64 { return 1 - min(max(off/farOff, 0), 1) }
