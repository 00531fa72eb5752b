package leave

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// traced is a leave played without any of the finder's formulas: the cue ball is
// sent in one direction after another, balls are rolled along straight lines, and
// whatever comes too near to something stops.
type traced struct {
	leave Leave
	on    table.Place
}

// traceStep is how far apart the directions are that are tried.
const traceStep = 0.004 * math.Pi / 180

// windows returns for each pocket the widest run of neighbouring directions that drop
// the ball, in radians.
func (tr traced) windows() map[table.Pocket]float64 {
	ahead := tr.leave.Cue.VectorTo(tr.on)
	half := math.Asin(diameter / ahead.Length())
	widest, run := map[table.Pocket]float64{}, 0.0
	var last table.Pocket
	for t := -half; t <= half; t += traceStep {
		p := tr.play(ahead.TurnedBy(t).UnitVector())
		if p == "" || p != last {
			run = 0
		}
		if p != "" {
			run += traceStep
			widest[p] = max(widest[p], run)
		}
		last = p
	}
	return widest
}

// play sends the cue ball and names the pocket the ball drops into, or "".
func (tr traced) play(way table.Vector) table.Pocket {
	ghost, met := whereTouched(tr.leave.Cue, way, tr.on)
	if !met || !inside(tr.leave.Kind, ghost) || tr.stopped(tr.leave.Cue, ghost) {
		return ""
	}
	object := ghost.VectorTo(tr.on).UnitVector()
	if way.Dot(object) < math.Cos(80*math.Pi/180) {
		return ""
	}
	for _, p := range table.Pockets() {
		if end, drops := rollsInto(tr.leave.Kind, tr.on, object, p); drops && !tr.stopped(tr.on, end) {
			return p
		}
	}
	return ""
}

// whereTouched is where a ball rolled along a line first touches another.
func whereTouched(from table.Place, way table.Vector, at table.Place) (table.Place, bool) {
	to := from.VectorTo(at)
	along, across := way.Dot(to), way.Cross(to)
	if along <= 0 || math.Abs(across) >= diameter {
		return from, false
	}
	return from.MovedBy(way.ScaledBy(along - math.Sqrt(diameter*diameter-across*across))), true
}

// inside reports whether a ball's middle may be there for the cushions.
func inside(k table.Kind, p table.Place) bool {
	x, y := math.Abs(float64(p.X)), float64(p.Y)
	reach := float64(table.NoseReach)
	return x <= float64(k.Width())/2-reach && y >= reach && y <= float64(k.Length())-reach
}

// stopped reports whether another ball than the one shot at lies within a ball's width
// of the straight way.
func (tr traced) stopped(from, to table.Place) bool {
	way := from.VectorTo(to)
	for _, r := range tr.leave.Placed {
		if r.Place == tr.on {
			continue
		}
		share := min(max(from.VectorTo(r.Place).Dot(way)/max(way.Dot(way), 1e-12), 0), 1)
		if from.MovedBy(way.ScaledBy(share)).Distance(r.Place) < table.BallDiameter {
			return true
		}
	}
	return false
}

// rollsInto rolls a ball toward a mouth: past both tips as near as they let it pass,
// or, at a corner, by a brush of the rail. end is where it is in.
func rollsInto(k table.Kind, from table.Place, way table.Vector, p table.Pocket) (end table.Place, drops bool) {
	first, second := k.JawTips(p)
	mouth := first.VectorTo(second)
	in := table.Vector{X: -mouth.Y, Y: mouth.X}.UnitVector()
	if in.Dot(from.VectorTo(first)) < 0 {
		in = in.ScaledBy(-1)
	}
	if way.Dot(in) <= 0 {
		return from, false
	}
	end = from.MovedBy(way.ScaledBy(from.VectorTo(first).Dot(in)/way.Dot(in) + diameter)) // a ball in the jaws is in the way
	if passes(p, from, way, in, first, second) && passes(p, from, way, in, second, first) {
		return end, true
	}
	if p.IsSide() {
		return end, false
	}
	onEnd, onSide := first, second // where the end rail and the side rail stop
	return end, brushes(from, way, onEnd, onSide) || brushes(turned(from), table.Vector{X: way.Y, Y: way.X}, turned(onSide), turned(onEnd))
}

// turned swaps a place's coordinates, so that a side rail is looked at as an end rail.
func turned(p table.Place) table.Place { return table.Place{X: p.Y, Y: p.X} }

// passes reports whether a rolling ball passes a tip of the mouth, with its middle on
// the mouth's side of it.
func passes(p table.Pocket, from table.Place, way, in table.Vector, tip, other table.Place) bool {
	across := tip.VectorTo(other).UnitVector()
	approach := math.Atan2(way.Dot(across), way.Dot(in))
	to := from.VectorTo(tip)
	beside := way.ScaledBy(way.Dot(to))
	off := table.Vector{X: beside.X - to.X, Y: beside.Y - to.Y} // from the tip to the line
	return off.Dot(across) > 0 && off.Length() >= float64(p.JawClearance(table.DegreesFromRadians(approach)))
}

// brushes: a ball touches the end rail (y = const) at up to 14 degrees, keeps 0.6 of
// the slope, and must then pass the tip at the end of the side rail.
func brushes(from table.Place, way table.Vector, onEnd, onSide table.Place) bool {
	toward := float64(onSide.X - onEnd.X) // along the rail, to the corner
	out := math.Copysign(1, float64(onEnd.Y-from.Y))
	along, slope := way.X*math.Copysign(1, toward), way.Y*out
	if along <= 0 || slope <= 0 || math.Atan2(slope, along) > 14*math.Pi/180 {
		return false
	}
	gap := math.Abs(float64(onEnd.Y-from.Y)) - float64(table.NoseReach) // to the rail
	rest := math.Abs(float64(onSide.X-from.X)) - gap*along/slope        // along the rail after it
	if rest < 0 {
		return false
	}
	deep := math.Abs(float64(onSide.Y-onEnd.Y)) - float64(table.NoseReach)
	return 0.6*rest*slope/along <= deep-float64(table.FootLeft.JawClearance(-45))
}

// tracedLeave is a drawn leave whose ball to shoot at lies in no mouth, where
// directions are a matter of words.
func tracedLeave(k table.Kind, rng *rand.Rand) (Leave, table.Place) {
	half, long := float64(k.Width())/2-float64(table.BallRadius), float64(k.Length())-2*float64(table.BallRadius)
	anywhere := func() table.Place {
		p := table.Place{X: table.Inches((2*rng.Float64() - 1) * half), Y: table.BallRadius + table.Inches(rng.Float64()*long)}
		if rng.IntN(4) == 0 { // a ball on the rail
			p.X = table.Inches(math.Copysign(half, float64(p.X)))
		}
		return p
	}
	for {
		l := Leave{Kind: k, Game: rack.NineBall, Cue: anywhere()}
		for ball := range 1 + rng.IntN(8) {
			if p := anywhere(); l.clear(p) && p.Distance(l.Cue) > table.BallDiameter {
				l.Placed = append(l.Placed, drill.RestingBall{Ball: rack.Ball(ball + 1), Place: p})
			}
		}
		if len(l.Placed) == 0 {
			continue
		}
		on := l.Placed[0].Place
		if slices.ContainsFunc(table.Pockets(), func(p table.Pocket) bool { return k.PocketMouth(p).Middle.Distance(on) < 5 }) {
			continue
		}
		return l, on
	}
}

// Whatever is drawn, the finder's windows are those of balls rolled one direction at
// a time, for every size of table and mouth.
func TestFindShots_AgreesWithTracedBalls(t *testing.T) {
	compared := 0
	for i := range 300 {
		rng := rand.New(rand.NewPCG(31, uint64(i)))
		k := kinds[i%len(kinds)]
		l, on := tracedLeave(k, rng)
		ball := l.Placed[0].Ball
		found := map[table.Pocket]float64{}
		for _, s := range l.findShotsFrom(ball, l.Cue, on, Club) {
			if s.Way == Direct {
				found[s.Pocket] = s.Window.Radians()
			}
		}
		for p, w := range (traced{l, on}).windows() {
			if math.Abs(w-found[p]) > 3*traceStep+0.02*w {
				t.Errorf("draw %d, %v, into %s: traced %.4f rad, found %.4f; cue %v, %v", i, k, p, w, found[p], l.Cue, l.Placed)
			}
			compared++
			delete(found, p)
		}
		for p, w := range found {
			if w > 3*traceStep {
				t.Errorf("draw %d, %v, into %s: found %.4f rad, traced none; cue %v, %v", i, k, p, w, l.Cue, l.Placed)
			}
		}
	}
	if compared < 300 {
		t.Errorf("only %d windows were compared", compared)
	}
}
