package leave

import (
	"fmt"
	"math"

	"breakwright/internal/leave"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/picture"
)

// worthWords says what a break is worth on average; "" before anything is known.
func worthWords(s leave.Summary) string {
	value, ok := s.MeanValue()
	if !ok {
		return ""
	}
	breaks, known := s.InPlay()
	return fmt.Sprintf("On average a break leaves a shot with position on the next ball %.1f times in ten, by a simple model. Enough is known of %s that left the table to play.",
		10*value, say.OfTotal(known, breaks))
}

// drawMap shows from where the balls to shoot at of the latest leaves could be pocketed,
// and compares windows by it.
func (v *leaveView) drawMap(leaves []leave.Leave, player leave.Player, last store.Set, units say.Units) {
	var placed []leave.Leave
	view := picture.ShotMapView{ID: "shot-map", Title: "From where " + v.Ball + " could be pocketed", Ball: v.Ball, Kind: last.Table.Kind, Window: &last.Window}
	for i := len(leaves) - 1; i >= 0 && len(placed) < mostDrawn; i-- {
		if at, known := leaves[i].Place(leave.FindShots(leaves[i], player).Ball); known && !leaves[i].Won {
			placed, view.Places = append(placed, leaves[i]), append(view.Places, at)
		}
	}
	if len(placed) == 0 {
		v.WindowSays = "No ball to shoot at was placed yet. A drill that asks for a shot on the lowest ball has the page at the table ask for it."
		return
	}
	m := leave.MapShots(placed, player)
	for i := range m.Chance {
		view.Chance = append(view.Chance, m.Chance[i][:])
	}
	better, gain, found := m.FindBetterWindow(last.Window)
	if found {
		view.Better = &better
	}
	v.WindowSays = v.windowWords(m, last.Window, better, gain, found, units)
	v.Map = &view
}

// roundInches words lengths of a map, whose cells are half a diamond.
func roundInches(units say.Units) func(table.Inches) string {
	return func(v table.Inches) string { return units.Length(table.Inches(math.Round(float64(v)))) }
}

// windowWords compares the window now with the one that would give most shots.
func (v *leaveView) windowWords(m leave.ShotMap, now, better table.Window, gain float64, found bool, units say.Units) string {
	over := fmt.Sprintf("over the latest %d breaks of which %s was placed, with the other balls where they lay", m.Leaves, v.Ball)
	switch mean := m.MeanIn(now); {
	case found:
		return fmt.Sprintf("The window that gives most shots is %s: %.1f in ten from there, %.1f from the window now, %s. Where the cue ball and the other balls come to rest is not wholly apart, so take it as a hint.",
			leave.DescribeWindowChange(now, better, roundInches(units)), 10*(mean+gain), 10*mean, over)
	case m.Leaves < leave.FewestLeaves:
		return fmt.Sprintf("Too early to compare windows: %s was placed in %d breaks, and %d are asked for. From the window now there were %.1f shots in ten.", v.Ball, m.Leaves, leave.FewestLeaves, 10*mean)
	default:
		return fmt.Sprintf("Keep the window where it is. From it there was a shot %.1f times in ten, and no other place for a window of its size gives even one shot more in twenty breaks (%s).", 10*mean, over)
	}
}
