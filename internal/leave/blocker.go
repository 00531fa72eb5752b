package leave

import (
	"math"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

const diameter = float64(table.BallDiameter)

// blocker is a ball that may stand in the way, or its image beyond a rail.
type blocker struct {
	ball rack.Ball
	at   table.Place
}

// narrow is a bound on a window's directions, for a quick look at which balls can
// matter at all.
type narrow struct{ sin, cos float64 }

func narrowOf(s *spans) narrow {
	if s.n == 0 {
		return narrow{}
	}
	most := max(-s.piece[0].lo, s.piece[s.n-1].hi)
	if most > 1 {
		return narrow{1, 0} // too wide for a quick look
	}
	sin, cos := math.Sincos(max(most, 0))
	return narrow{sin, cos}
}

// misses reports whether no direction of the window comes within a ball's width of a
// place: across·cos(t) - along·sin(t) is how far it is off a direction t.
func (n narrow) misses(from table.Place, line table.Vector, at table.Place) bool {
	v := from.VectorTo(at)
	along := line.Dot(v)
	if along < 0 && along*along > n.sin*n.sin*v.Dot(v) {
		return true // it lies behind every direction
	}
	return math.Abs(line.Cross(v))*n.cos > diameter+math.Abs(along)*n.sin
}

// isPassedBy reports whether a way lies further to that hand (1 left, -1 right) of the
// line than every direction of the window.
func (n narrow) isPassedBy(line, way table.Vector, hand float64) bool {
	across := hand * line.Cross(way)
	return across > 0 && across*n.cos > line.Dot(way)*n.sin
}

// shadow returns the directions from a place in which a rolling ball comes to touch
// a blocker, as angles from a line; touching balls shade half of all directions.
func shadow(from table.Place, line table.Vector, at table.Place) (s span, apart, turn float64) {
	v := from.VectorTo(at)
	apart, turn = max(lengthOf(v), diameter), angleTo(line, v)
	half := arcsine(diameter / apart)
	return span{turn - half, turn + half}, apart, turn
}

// reach is how far a ball rolls in a direction (an angle from the line) until it
// touches a ball that is so far apart and turned so much from the line.
func reach(apart, turn, direction float64) float64 {
	sin, cos := math.Sincos(direction - turn)
	return apart*cos - sqrt(diameter*diameter-apart*apart*sin*sin)
}

// removeOnWay takes out of a span of directions those in which the object ball
// meets the blocker on its way to the pocket; no ball lies beyond a mouth.
func removeOnWay(s *spans, from table.Place, line table.Vector, b blocker) bool {
	shade, _, _ := shadow(from, line, b.at)
	return s.remove(shade)
}

// removeBefore takes out of a span of directions of the cue ball those in which
// it meets the blocker before the ball it is played on.
func removeBefore(s *spans, cue table.Place, line table.Vector, b blocker, on table.Place) bool {
	onApart := max(lengthOf(cue.VectorTo(on)), diameter)
	if lengthOf(cue.VectorTo(b.at)) > onApart+diameter {
		return false // the one that it is played on comes first in every direction
	}
	shade, apart, turn := shadow(cue, line, b.at)
	if !s.overlaps(shade) {
		return false
	}
	return removeWhere(s, shade, bothTouched(cue, line, b.at, on), func(direction float64) bool {
		return reach(apart, turn, direction) < reach(onApart, 0, direction)
	})
}

// bothTouched returns the directions in which the cue ball touches both at once.
func bothTouched(cue table.Place, line table.Vector, at, on table.Place) [2]float64 {
	v := at.VectorTo(on)
	middle := at.MovedBy(v.ScaledBy(0.5))
	half := sqrt(diameter*diameter - v.Dot(v)/4)
	across := table.Vector{X: -v.Y, Y: v.X}.UnitVector().ScaledBy(half)
	return [2]float64{
		angleTo(line, cue.VectorTo(middle.MovedBy(across))),
		angleTo(line, cue.VectorTo(middle.MovedBy(across.ScaledBy(-1)))),
	}
}

// removeWhere takes out the parts of a shadow where blocked says so; within the
// window it can only change its mind at the turns given, and outside it is not
// asked.
func removeWhere(s *spans, shade span, turns [2]float64, blocked func(direction float64) bool) bool {
	shade = shade.and(span{s.piece[0].lo, s.piece[s.n-1].hi})
	a, b := min(turns[0], turns[1]), max(turns[0], turns[1])
	a, b = min(max(a, shade.lo), shade.hi), min(max(b, shade.lo), shade.hi)
	taken := false
	for _, part := range [3]span{{shade.lo, a}, {a, b}, {b, shade.hi}} {
		if part.width() > 0 && blocked(part.middle()) && s.remove(part) {
			taken = true
		}
	}
	return taken
}
