package leave

import (
	"math"

	"breakwright/internal/table"
)

// hanging is how far to either side of straight in a ball may go that already
// lies within the mouth.
const hanging = 80 * math.Pi / 180

// mouthSpan returns the directions in which a ball at a place rolls into a mouth,
// counted from a line (a unit vector) toward its middle. Other balls do not
// count here.
func mouthSpan(on table.Place, m table.Mouth) (line table.Vector, s span) {
	toMiddle := on.VectorTo(m.Middle)
	if toMiddle.Dot(m.In) <= 0 {
		return m.In, span{-hanging, hanging}
	}
	line = toMiddle.UnitVector()
	e := edge{on: on, mouth: m, line: line, square: m.In.AngleTo(line)}
	left, right := m.First, m.Second
	if !firstIsLeft(m) {
		left, right = right, left
	}
	return line, span{lo: -e.at(right, -1), hi: e.at(left, 1)}
}

// firstIsLeft reports whether the first tip is on the left of who looks in.
func firstIsLeft(m table.Mouth) bool { return m.In.Cross(m.Middle.VectorTo(m.First)) > 0 }

// edge is the outermost direction from a ball past a tip of a mouth, as an angle
// from the line.
type edge struct {
	on    table.Place
	mouth table.Mouth
	line  table.Vector
	// square is how far the line is turned from straight in.
	square float64
}

// at returns how far the direction may turn from the line toward a tip; hand is 1
// for the left tip, which is to the left of the line, and -1 for the right one.
// How near the ball may pass depends on its direction, hence the rounds.
func (e edge) at(tip table.Place, hand float64) float64 {
	v := e.on.VectorTo(tip)
	turn, apart := hand*angleTo(e.line, v), lengthOf(v)
	fromSquare := hand * e.square
	out := turn
	for range 2 {
		room := e.mouth.Pocket.JawClearance(table.DegreesFromRadians(-(fromSquare + out)))
		out = turn - arcsine(min(1, float64(room)/apart))
	}
	return out
}

// Along a rail a ball may brush the cushion on its way and still drop, when it
// comes in at a small angle: on the computed table (package breaksim) up to some
// 16 degrees at 4 mph and 12 at 5. The slope that a rail gives back is 0.6 to 0.9
// of what it took (Alciatore, physical-properties page, from memory); 0.6 agrees
// best with the computed table.
const (
	brushSteepest table.Degrees = 14
	brushKept     float64       = 0.6
)

// brushed widens a corner's span by the directions in which the ball first
// brushes one of the two rails that end there. At a side pocket, and within the
// mouth, there is nothing to widen.
func brushed(k table.Kind, on table.Place, m table.Mouth, line table.Vector, s span) span {
	if m.Pocket.IsSide() || s.hi >= hanging {
		return s
	}
	end, side := table.HeadRail, table.LeftRail
	if m.Pocket.IsFoot() {
		end = table.FootRail
	}
	if m.Pocket.Side() == table.Right {
		side = table.RightRail
	}
	left, right := end, side
	leftFar, rightFar := m.Second, m.First
	if !firstIsLeft(m) {
		left, right, leftFar, rightFar = side, end, m.First, m.Second
	}
	b := brush{k, on, m, line}
	return span{
		lo: min(s.lo, -b.edge(right, rightFar, -1)),
		hi: max(s.hi, b.edge(left, leftFar, 1)),
	}
}

// brush is a ball that touches a rail on its way into a corner.
type brush struct {
	kind  table.Kind
	on    table.Place
	mouth table.Mouth
	line  table.Vector
}

// edge returns the outermost direction by way of a rail: no steeper than
// brushSteepest, and so that off the rail the ball still passes the far tip, at
// the end of the other rail.
func (b brush) edge(r table.Rail, far table.Place, hand float64) float64 {
	at, out := b.kind.TurningLine(r)
	toward := b.mouth.In.WithoutPartAlong(out)
	deep := far.VectorTo(at).Dot(out)
	room := max(deep-float64(b.mouth.Pocket.JawClearance(-45)), 0)
	image := far.MovedBy(out.ScaledBy(deep + room/brushKept))
	steepest := hand * angleTo(b.line, toward.TurnedBy(hand*brushSteepest.Radians()))
	return min(steepest, hand*angleTo(b.line, b.on.VectorTo(image)))
}
