package live

import (
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// A foul does not hide the wing ball, which the row counts.
func TestNewBreakMark_ShowsTheWingBallOfAFoul(t *testing.T) {
	s := drill.StandardSetup(rack.NineBall, table.Left, table.NineFoot())
	made := []drill.Pocketed{{Ball: s.WingBall(), Pocket: s.WingPocket()}}
	scratch := drill.CueEnd{How: drill.Scratched, Scratch: table.SideRight}
	for _, c := range []struct {
		b    drill.Break
		want breakMark
	}{
		{drill.Break{Pocketed: made, Cue: scratch}, breakMark{markScratch, "scratch, wing ball made", true}},
		{drill.Break{Cue: scratch}, breakMark{markScratch, "scratch, wing ball missed", false}},
		{drill.Break{Cue: scratch, WingMiss: drill.NotWatched}, breakMark{markScratch, "scratch, wing ball not watched", false}},
		{drill.Break{Pocketed: made, Cue: drill.CueEnd{How: drill.OffTable}}, breakMark{markOff, "a ball off the table, wing ball made", true}},
		{drill.Break{Pocketed: made, Cue: drill.CueEnd{How: drill.Stopped}}, breakMark{markMade, "wing ball made", true}},
	} {
		if got := newBreakMark(c.b, s); got != c.want {
			t.Errorf("%+v: %+v, want %+v", c.b, got, c.want)
		}
	}
}
