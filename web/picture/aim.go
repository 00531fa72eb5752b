package picture

import (
	"math"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Aim is the line of a shot at a rack: from the cue ball to where it meets the
// head ball, and on through the rack to a ball at the rear.
type Aim struct {
	From, Ghost, Through table.Place
	// Target is the slot at the rear nearest to the line, and TargetPlace where
	// its ball stands.
	Target      rack.Slot
	TargetPlace table.Place
}

// AimAt gives the line for a cue ball sent Contact off a full hit at the head
// ball of this rack. ok is false when it would miss the head ball or already
// touches it.
func AimAt(c CueBall, r Racked, k table.Kind) (Aim, bool) {
	head := r.Game.HeadBall(r.Spot, k)
	apart := head.Distance(c.Place)
	if !(apart > table.BallDiameter) || !(abs(c.Contact) < table.BallDiameter) {
		return Aim{}, false
	}
	// The full line turned to the right until it passes the head ball's centre
	// at the distance Contact.
	sin := float64(c.Contact / apart)
	cos := math.Sqrt(1 - sin*sin)
	fullX, fullY := float64(head.X-c.Place.X)/float64(apart), float64(head.Y-c.Place.Y)/float64(apart)
	way := direction{x: fullX*cos + fullY*sin, y: fullY*cos - fullX*sin}

	a := Aim{From: c.Place}
	back := math.Sqrt(float64(table.BallDiameter*table.BallDiameter - c.Contact*c.Contact))
	a.Ghost = way.from(c.Place, apart*table.Inches(cos)-table.Inches(back))
	a.Target, a.TargetPlace = rearTarget(c.Place, way, r, k)
	a.Through = way.from(c.Place, way.along(c.Place, a.TargetPlace))
	return a, true
}

// Beyond is where the line is drawn to: a little behind the rack.
func (a Aim) Beyond() table.Place {
	return towards(a.Ghost, a.Through).from(a.Through, 5)
}

// rearTarget does for any line what rack.Game.LineThrough does for the full
// one: of the last two rows, the ball nearest to the line.
func rearTarget(from table.Place, way direction, r Racked, k table.Kind) (rack.Slot, table.Place) {
	var rear table.Inches
	for _, s := range r.Game.Slots() {
		p, _ := r.Game.Place(s, r.Spot, k)
		rear = max(rear, p.Y)
	}
	best, bestPlace, bestOff := rack.Head, r.Game.HeadBall(r.Spot, k), table.Inches(math.Inf(1))
	for _, s := range r.Game.Slots() {
		p, _ := r.Game.Place(s, r.Spot, k)
		if p.Y < rear-rack.RowPitch*1.5 {
			continue
		}
		if off := way.off(from, p); off < bestOff {
			best, bestPlace, bestOff = s, p, off
		}
	}
	return best, bestPlace
}

// direction is a unit vector in table coordinates.
type direction struct{ x, y float64 }

func (d direction) from(p table.Place, far table.Inches) table.Place {
	return table.Place{X: p.X + far*table.Inches(d.x), Y: p.Y + far*table.Inches(d.y)}
}

// along is how far p lies along the line through from.
func (d direction) along(from, p table.Place) table.Inches {
	return (p.X-from.X)*table.Inches(d.x) + (p.Y-from.Y)*table.Inches(d.y)
}

// off is how far p lies from the line through from.
func (d direction) off(from, p table.Place) table.Inches {
	return abs((p.X-from.X)*table.Inches(d.y) - (p.Y-from.Y)*table.Inches(d.x))
}

func towards(from, to table.Place) direction {
	apart := from.Distance(to)
	if apart == 0 {
		return direction{0, 1}
	}
	return direction{float64((to.X - from.X) / apart), float64((to.Y - from.Y) / apart)}
}

func abs[T ~float64](x T) T { return T(math.Abs(float64(x))) }
