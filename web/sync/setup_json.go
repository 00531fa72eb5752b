package sync

import (
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// setupJSON is a setup on the wire. A phone does not look into it: it gives
// back what it was given when a set is started.
type setupJSON struct {
	Game    rack.Game            `json:"game"`
	Spot    rack.Spot            `json:"spot"`
	Order   string               `json:"order"`
	Side    table.Side           `json:"side"`
	Wing    rack.Slot            `json:"wing"`
	X       table.Inches         `json:"x"`
	Y       table.Inches         `json:"y"`
	Contact table.Inches         `json:"contact"`
	Tip     drill.RadiusFraction `json:"tip"`
	Spin    drill.RadiusFraction `json:"spin"`
	Speed   table.Mph            `json:"speed"`
}

func setupToJSON(s drill.Setup) setupJSON {
	return setupJSON{
		Game: s.Game, Spot: s.Spot, Order: s.Order.String(), Side: s.Side, Wing: s.Wing,
		X: s.Cue.X, Y: s.Cue.Y, Contact: s.Contact, Tip: s.Tip, Spin: s.Spin, Speed: s.Speed,
	}
}

// toSetup reads it back; whether it can be broken with is drill's to say.
func (j setupJSON) toSetup() (drill.Setup, error) {
	order, err := rack.ParseOrder(j.Game, j.Order)
	if err != nil {
		return drill.Setup{}, err
	}
	return drill.Setup{
		Game: j.Game, Spot: j.Spot, Order: order, Side: j.Side, Wing: j.Wing,
		Cue: table.Place{X: j.X, Y: j.Y}, Contact: j.Contact, Tip: j.Tip, Spin: j.Spin, Speed: j.Speed,
	}, nil
}
