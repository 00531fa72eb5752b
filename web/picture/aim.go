package picture

import (
	"math"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// AimLine is the line of a shot at a rack: from the cue ball to where it meets the
// head ball, and on through the rack to a ball at the rear.
type AimLine struct {
	From, Ghost, Through table.Place
	// Target is the slot at the rear nearest to the line, and TargetPlace where
	// its ball stands.
	Target      rack.Slot
	TargetPlace table.Place
}

// FindAimLine returns the line for a cue ball sent Contact off a full hit at the head
// ball of this rack. ok is false when it would miss the head ball or already
// touches it.
func FindAimLine(c CueBall, r RackedBalls, k table.Kind) (AimLine, bool) {
	head := r.Game.HeadBallPlace(r.Spot, k)
	apart := head.Distance(c.Place)
	if !(apart > table.BallDiameter) || !(absInches(c.Contact) < table.BallDiameter) {
		return AimLine{}, false
	}
	// The full line turned to the right until it passes the head ball's centre
	// at the distance Contact.
	sin := float64(c.Contact / apart)
	cos := math.Sqrt(1 - sin*sin)
	fullX, fullY := float64(head.X-c.Place.X)/float64(apart), float64(head.Y-c.Place.Y)/float64(apart)
	way := unitVector{x: fullX*cos + fullY*sin, y: fullY*cos - fullX*sin}

	a := AimLine{From: c.Place}
	back := math.Sqrt(float64(table.BallDiameter*table.BallDiameter - c.Contact*c.Contact))
	a.Ghost = way.pointFrom(c.Place, apart*table.Inches(cos)-table.Inches(back))
	a.Target, a.TargetPlace = rearTarget(c.Place, way, r, k)
	a.Through = way.pointFrom(c.Place, way.distanceAlong(c.Place, a.TargetPlace))
	return a, true
}

// BeyondRack is where the line is drawn to: a little behind the rack.
func (a AimLine) BeyondRack() table.Place {
	return directionTo(a.Ghost, a.Through).pointFrom(a.Through, 5)
}

// rearTarget does for any line what rack.Game.SlotInLine does for the full
// one: of the last two rows, the ball nearest to the line.
func rearTarget(from table.Place, way unitVector, r RackedBalls, k table.Kind) (rack.Slot, table.Place) {
	var rear table.Inches
	for _, s := range r.Game.Slots() {
		p, _ := r.Game.SlotPlace(s, r.Spot, k)
		rear = max(rear, p.Y)
	}
	best, bestPlace, bestOff := rack.HeadSlot, r.Game.HeadBallPlace(r.Spot, k), table.Inches(math.Inf(1))
	for _, s := range r.Game.Slots() {
		p, _ := r.Game.SlotPlace(s, r.Spot, k)
		if p.Y < rear-rack.RowPitch*1.5 {
			continue
		}
		if off := way.distanceFrom(from, p); off < bestOff {
			best, bestPlace, bestOff = s, p, off
		}
	}
	return best, bestPlace
}

// unitVector is a unit vector in table coordinates.
type unitVector struct{ x, y float64 }

func (d unitVector) pointFrom(p table.Place, far table.Inches) table.Place {
	return table.Place{X: p.X + far*table.Inches(d.x), Y: p.Y + far*table.Inches(d.y)}
}

// distanceAlong is how far p lies along the line through from.
func (d unitVector) distanceAlong(from, p table.Place) table.Inches {
	return (p.X-from.X)*table.Inches(d.x) + (p.Y-from.Y)*table.Inches(d.y)
}

// distanceFrom is how far p lies from the line through from.
func (d unitVector) distanceFrom(from, p table.Place) table.Inches {
	return absInches((p.X-from.X)*table.Inches(d.y) - (p.Y-from.Y)*table.Inches(d.x))
}

func directionTo(from, to table.Place) unitVector {
	apart := from.Distance(to)
	if apart == 0 {
		return unitVector{0, 1}
	}
	return unitVector{float64((to.X - from.X) / apart), float64((to.Y - from.Y) / apart)}
}

func absInches[T ~float64](x T) T { return T(math.Abs(float64(x))) }
