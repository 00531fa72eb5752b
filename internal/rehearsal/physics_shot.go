package rehearsal

import (
	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/table"
)

// shotOf returns the shot on the lowest ball that a break leaves a club player, of one whose
// cue ball stopped; empty of others.
func shotOf(b drill.Break, r breaksim.BreakResult, s drill.Setup, k table.Kind) drill.Shot {
	b.Rest = nil
	for _, ball := range r.Balls[1:] {
		if ball.End == breaksim.Stopped {
			b.Rest = append(b.Rest, drill.RestingBall{Ball: ball.Ball, Place: ball.Place})
		}
	}
	left := leave.FromBreak(b, s, k)
	if left.Hand != leave.InPlay {
		return ""
	}
	return leave.FindShots(left, leave.PlayerAt(leave.Club)).Shot
}
