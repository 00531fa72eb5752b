package rehearsal

import (
	"math"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// steepestCut is the sharpest cut that counts as an open shot, in degrees
// (common practice, no source).
const steepestCut = 60

// shotOf reports whether the cue ball, where it stopped, has a shot on the lowest
// ball left: open when the way to it and the way from it to a pocket are free
// and the cut is no sharper than steepestCut, hard when it can be hit but there
// is no such pocket, none when another ball is in the way.
func shotOf(r breaksim.BreakResult, k table.Kind) drill.Shot {
	cue := r.CueBallEnd().Place
	low, left := lowestBall(r)
	if left.End != breaksim.Stopped {
		return ""
	}
	if !isPathFree(r, cue, left.Place, low) {
		return drill.ShotNone
	}
	for _, p := range table.Pockets() {
		at := k.CornerPoint(p)
		if cutAngle(cue, left.Place, at) <= steepestCut && isPathFree(r, left.Place, at, low) {
			return drill.ShotOpen
		}
	}
	return drill.ShotHard
}

// lowestBall finds the lowest ball still on the table, and its index.
func lowestBall(r breaksim.BreakResult) (index int, low breaksim.BallEnd) {
	for i, b := range r.Balls {
		if b.Ball != 0 && b.End == breaksim.Stopped && (index == 0 || b.Ball < low.Ball) {
			index, low = i, b
		}
	}
	return index, low
}

// isPathFree reports whether a ball can roll from one place to another without touching
// any ball but the one that plays the shot and the one it is played on.
func isPathFree(r breaksim.BreakResult, from, to table.Place, on int) bool {
	for i, b := range r.Balls {
		if i == 0 || i == on || b.End != breaksim.Stopped {
			continue
		}
		if distanceToPath(from, to, b.Place) < table.BallDiameter {
			return false
		}
	}
	return true
}

// distanceToPath is the distance of a place from the stretch between two others.
func distanceToPath(from, to, p table.Place) table.Inches {
	dx, dy := to.X-from.X, to.Y-from.Y
	long := dx*dx + dy*dy
	share := table.Inches(0)
	if long > 0 {
		share = min(max(((p.X-from.X)*dx+(p.Y-from.Y)*dy)/long, 0), 1)
	}
	return p.Distance(table.Place{X: from.X + share*dx, Y: from.Y + share*dy})
}

// cutAngle is the angle, in degrees, by which a ball must leave the line of the cue
// ball to reach a pocket.
func cutAngle(cue, ball, pocket table.Place) float64 {
	in := math.Atan2(float64(ball.Y-cue.Y), float64(ball.X-cue.X))
	on := math.Atan2(float64(pocket.Y-ball.Y), float64(pocket.X-ball.X))
	turn := math.Abs(math.Remainder(on-in, 2*math.Pi))
	return turn * 180 / math.Pi
}
