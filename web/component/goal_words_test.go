package component

import (
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

func TestGoalWords(t *testing.T) {
	d := drill.Drill{Breaks: 10, Setup: drill.StandardSetup(rack.NineBall, table.Right, table.NineFoot()), Targets: drill.Targets{Wing: 0.5, Window: 0.35}}
	if says := GoalWords(d); says != "Good is the wing ball, the "+d.Setup.WingBall().String()+", in the right foot corner 5 of 10 and the cue ball in the window 3 to 4 of 10." {
		t.Error(says)
	}
	d.WatchList.CueOnly, d.Targets.Shot, d.Targets.RanOut = true, 0.4, 0.2
	if says := GoalWords(d); says != "Good is the cue ball in the window 3 to 4 of 10. After the break: an open shot on the lowest ball 4 of 10, the table run out 2 of 10." {
		t.Error(says)
	}
}
