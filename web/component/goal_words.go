package component

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/say"
)

// GoalWords says what counts as good in a drill, and what is asked of the leave.
func GoalWords(d drill.Drill) string {
	s, wing := d.Setup, ""
	if !d.WatchList.CueOnly {
		wing = fmt.Sprintf("the wing ball, the %s, in %s %s and ", s.WingBall(), s.WingPocket().Words(), TargetCountWords(d.Targets.Wing, d.Breaks))
	}
	says := "Good is " + wing + "the cue ball in the window " + TargetCountWords(d.Targets.Window, d.Breaks) + "."
	var after []string
	if d.Targets.Shot > 0 {
		after = append(after, "an open shot on "+leave.TargetWords(s.Game)+" "+TargetCountWords(d.Targets.Shot, d.Breaks))
	}
	if d.Targets.RanOut > 0 {
		after = append(after, "the table run out "+TargetCountWords(d.Targets.RanOut, d.Breaks))
	}
	if len(after) > 0 {
		says += " After the break: " + strings.Join(after, ", ") + "."
	}
	return says
}

// TargetCountWords says a target as a count of whole breaks: "5 of 10", and "4 to 5 of
// 10" for 45 percent, which nobody can make in ten.
func TargetCountWords(share float64, breaks int) string {
	need := math.Round(share*float64(breaks)*10) / 10 // 0.29 × 100 is a hair below 29
	if low := math.Floor(need); low < need {
		return strconv.Itoa(int(low)) + " to " + say.OfTotal(int(low)+1, breaks)
	}
	return say.OfTotal(int(need), breaks)
}
