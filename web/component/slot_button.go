package component

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
	"breakwright/web/picture"
)

// SlotButton is a slot of the rack's picture as a button over it: row from the head, and
// half balls to the right of the middle.
type SlotButton struct {
	Slot      rack.Slot
	Ball      rack.Ball
	Row, Half int
	// Fixed is a ball that the rules keep where it is.
	Fixed bool
}

// ListSlotButtons are the buttons of a rack, in slot order.
func ListSlotButtons(s drill.Setup) []SlotButton {
	k := table.NineFoot() // a rack is as large on any table
	first := s.Game.HeadBallPlace(rack.HeadOnSpot, k)
	var all []SlotButton
	for _, slot := range s.Game.Slots() {
		at, _ := s.Game.SlotPlace(slot, rack.HeadOnSpot, k)
		ball, _ := s.Order.BallAt(s.Game, slot)
		_, fixed := s.Game.FixedBall(slot)
		all = append(all, SlotButton{
			Slot: slot, Ball: ball, Fixed: fixed,
			Row:  int(math.Round(float64((at.Y - first.Y) / rack.RowPitch))),
			Half: int(math.Round(float64(at.X / table.BallRadius))),
		})
	}
	return all
}

// Label is what the button is called: "Slot 2L, the 3".
func (s SlotButton) Label() string {
	name := "Slot " + string(s.Slot) + ", the " + s.Ball.String()
	if s.Fixed {
		name += ", stays here"
	}
	return name
}

func (d DrawnSetup) rackPicture() picture.RackView {
	s := d.Setup
	return picture.RackView{ID: d.ID + "-rack-close", Game: s.Game, Order: s.Order, Wing: s.Wing}
}
