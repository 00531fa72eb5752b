package component

import (
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/table"
)

// Beside "No shot" a line to a pocket would be read as one.
func TestNewLeavePicture_DrawsALineOnlyOfAShot(t *testing.T) {
	l := leave.Leave{Kind: table.NineFoot(), Hand: leave.InPlay, Cue: table.Place{X: 5, Y: 60}}
	l.Placed = append(l.Placed, drill.RestingBall{Ball: 1, Place: table.Place{X: 10, Y: 30}})
	a := leave.FoundShots{Ball: 1, Shots: []leave.Shot{{Way: leave.Direct, Pocket: table.FootRight, Chance: 0.04}}}
	for shot, drawn := range map[drill.Shot]bool{drill.ShotOpen: true, drill.ShotHard: true, drill.ShotNone: false} {
		a.Shot = shot
		if v := NewLeavePicture("leave", l, a); (v.Shot != nil) != drawn {
			t.Errorf("%s: a line is drawn is %v, want %v", shot, v.Shot != nil, drawn)
		}
	}
}
