package component

import (
	"fmt"
	"slices"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/rack"
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

// A student's page counts what a drill may ask of the leave, with its targets: open shots
// where any is known, and racks run out where any was noted.
func TestNewLeaveShare_CountsWhatIsKnown(t *testing.T) {
	setup := drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot())
	stopped := drill.Break{Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{Y: 40}}}
	open, ran, not := stopped, stopped, stopped
	open.Shot, ran.RanOut, not.RanOut = drill.ShotOpen, drill.RanOutYes, drill.RanOutNo
	for name, c := range map[string]struct {
		breaks []drill.Break
		want   []string
	}{
		"nothing":     {[]drill.Break{stopped, stopped}, nil},
		"a shot":      {[]drill.Break{open, stopped}, []string{"An open shot on the lowest ball 1 of 1, target 0.4"}},
		"run-outs":    {[]drill.Break{ran, not, stopped}, []string{"Table run out 1 of 2, target 0.2"}},
		"one of each": {[]drill.Break{open, ran}, []string{"An open shot on the lowest ball 1 of 1, target 0.4", "Table run out 1 of 1, target 0.2"}},
	} {
		var got []string
		if share := NewLeaveShare(c.breaks, setup, table.NineFoot(), drill.Targets{Shot: 0.4, RanOut: 0.2}, ""); share != nil {
			for _, r := range share.Rates {
				got = append(got, fmt.Sprintf("%s %d of %d, target %g", r.Label, r.Made, r.Of, r.Target))
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}
