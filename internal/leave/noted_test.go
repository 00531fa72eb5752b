package leave

import (
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// What was said at the table counts for more than what the places say.
func TestVerdict_NotedComesFirst(t *testing.T) {
	k := table.NineFoot()
	b := drill.Break{
		Number: 1, Cue: drill.CueEnd{How: drill.Stopped, Place: table.Place{X: 5, Y: 50}},
		Rest: []drill.RestingBall{{Ball: 1, Place: table.Place{X: 10, Y: 70}}},
	}
	s := drill.StandardSetup(rack.NineBall, table.Left, k)
	if got := FromBreak(b, s, k).Verdict(PlayerAt(Club)); got != drill.ShotOpen {
		t.Errorf("by its places it is %q", got)
	}
	b.Shot = drill.ShotNone
	l := FromBreak(b, s, k)
	if got := l.Verdict(PlayerAt(Club)); got != drill.ShotNone {
		t.Errorf("noted as none it is %q", got)
	}
	if n := CountShots([]Leave{l}, PlayerAt(Club)); n.None != 1 || n.Open != 0 {
		t.Errorf("%+v", n)
	}
}
