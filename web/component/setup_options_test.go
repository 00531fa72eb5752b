package component_test

import (
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
	"breakwright/web/component"
)

// The slots of a nine-ball rack are those of the rule books' diamond, row by row (WPA
// rules of play, 2.2); which of two corners the break side's wing ball lies in mirrors
// with the side.
func TestSetupOptions_OfNineBall(t *testing.T) {
	if got, want := component.RackOrderHint(rack.NineBall), "Ball by ball, the head first, each row from left to right: 1 2L 2R 3L 3C 3R 4L 4R 5."; got != want {
		t.Errorf("the order is asked for as %q, want %q", got, want)
	}
	spots := component.RackSpotOptions(rack.NineBall)
	if len(spots) != 2 || spots[0].Words != "The head ball" || spots[1].Words != "The centre ball" {
		t.Errorf("the rack is spotted by %+v", spots)
	}
	for side, want := range map[table.Side][2]string{
		table.Left: {"Slot 3L, on the break side", "Slot 3R, on the far side"}, table.Right: {"Slot 3R, on the break side", "Slot 3L, on the far side"},
	} {
		options := component.WingSlotOptions(drill.StandardSetup(rack.NineBall, side, table.NineFoot()))
		if len(options) != 2 || options[0].Words != want[0] || options[1].Words != want[1] {
			t.Errorf("from the %s the wing ball lies in %+v, want %v", side, options, want)
		}
	}
}
