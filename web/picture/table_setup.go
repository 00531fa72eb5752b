package picture

import (
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// SetupTable returns the picture of a setup on a kind of table, as a student sees
// it before the first break: rack, wing ball, cue ball, aim and its place in
// words.
func SetupTable(id string, s drill.Setup, k table.Kind) TableView {
	return TableView{
		ID: id, Kind: k,
		Rack:      &RackedBalls{Game: s.Game, Spot: s.Spot, Order: s.Order, Wing: s.Wing, WingLine: true},
		Cue:       &CueBall{Place: s.Cue, Contact: s.Contact, Aim: true},
		Distances: true,
	}
}

// DrillTable is SetupTable with the drill's window.
func DrillTable(id string, d drill.Drill) TableView {
	t := SetupTable(id, d.Setup, d.Kind)
	w := d.Window
	t.Window, t.Box = &w, d.House.BreakBox
	return t
}

// BreaksTable returns the picture of what the cue ball did in breaks: a dot for
// each, numbered as the breaks are. A zero window draws none.
func BreaksTable(id string, breaks []drill.Break, w table.Window, k table.Kind) TableView {
	t := TableView{ID: id, Kind: k}
	if w != (table.Window{}) {
		t.Window = &w
	}
	for _, b := range breaks {
		switch b.Cue.How {
		case drill.Stopped:
			t.Stops = append(t.Stops, Stop{b.Number, b.Cue.Place})
		case drill.Scratched:
			t.Scratches = append(t.Scratches, Scratch{b.Number, b.Cue.Scratch})
		case drill.OffTable:
			t.Off = append(t.Off, b.Number)
		}
	}
	return t
}
