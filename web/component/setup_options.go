package component

import (
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/web/page"
)

// What can be chosen of a setup, wherever one is made.

// GameOptions are the games that are known.
func GameOptions() []page.Option {
	var options []page.Option
	for _, g := range rack.Games() {
		options = append(options, page.Option{Value: string(g), Words: say.Capitalize(g.Words())})
	}
	return options
}

// BreakSideOptions are the sides that a setup can be broken from.
func BreakSideOptions() []page.Option {
	return []page.Option{{Value: string(table.Left), Words: "From the left"}, {Value: string(table.Right), Words: "From the right"}}
}

// RackSpotOptions are the ways to spot the rack that the game knows.
func RackSpotOptions(g rack.Game) []page.Option {
	var options []page.Option
	for _, spot := range g.Spots() {
		options = append(options, page.Option{Value: string(spot), Words: say.Capitalize(RackSpotWords(spot))})
	}
	return options
}

// RackSpotWords name the ball that lies on the foot spot: "the head ball".
func RackSpotWords(spot rack.Spot) string {
	if spot == rack.CentreOnSpot {
		return "the centre ball"
	}
	return "the head ball"
}

// WingSlotOptions are the two slots of a wing ball, the break side first.
func WingSlotOptions(s drill.Setup) []page.Option {
	near, far := s.Game.WingSlot(s.Side), s.Game.WingSlot(s.Side.Mirror())
	return []page.Option{
		{Value: string(near), Words: "Slot " + string(near) + ", on the break side"},
		{Value: string(far), Words: "Slot " + string(far) + ", on the far side"},
	}
}

// RackOrderHint names the slots in the order in which balls are typed.
func RackOrderHint(g rack.Game) string {
	words := "Ball by ball, the head first, each row from left to right:"
	for _, slot := range g.Slots() {
		words += " " + string(slot)
	}
	return words + "."
}
