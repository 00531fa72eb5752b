package picture

import (
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// TipView is the cue ball's face as the breaker sees it, with the place where
// the tip strikes.
type TipView struct {
	ID string
	// Tip is the height and Spin the side, as fractions of the ball's radius.
	Tip, Spin drill.RadiusFraction
	// Before, when set, is where the tip struck before a change.
	Before *TipPlace
}

// TipPlace is a place on the cue ball's face.
type TipPlace struct{ Tip, Spin drill.RadiusFraction }

// ContactView is the cue ball meeting the head ball, as the breaker sees it
// along the cue ball's way.
type ContactView struct {
	ID   string
	Head rack.Ball // the ball in the head slot; 0 means the 1
	// Contact is the distance from a full hit, positive to the right.
	Contact table.Inches
}
