package rack

import (
	"fmt"
	"math"
	"strings"

	"breakwright/internal/table"
)

// Slot is a place in the rack, named by row and side: "1" the head, "2L" and
// "2R", "3L" "3C" "3R" and so on; L and R as the breaker sees them. In rows of
// four or five the inner ones are LC and RC.
type Slot string

// HeadSlot is the slot nearest the breaker in every game.
const HeadSlot Slot = "1"

// rackSeat is where a slot lies relative to the head slot, in units that make
// frozen balls touch: rows away from the breaker, half balls to the right.
type rackSeat struct {
	slot      Slot
	rows      int
	halfBalls int
}

var otherSide = strings.NewReplacer("L", "R", "R", "L")

// Mirror returns the slot across the long string.
func (s Slot) Mirror() Slot { return Slot(otherSide.Replace(string(s))) }

// RowPitch is the distance between two rows of a frozen rack: a ball's width
// times the height of an equilateral triangle.
const RowPitch = table.Inches(float64(table.BallDiameter) * 0.86602540378443864676)

// Spot says which ball stands on the foot spot.
type Spot string

// The two ways to spot a rack. Rule books since mid-2025 have the money ball
// of nine-ball on the foot spot unless the event says otherwise (from
// summaries; the primary text was not read).
const (
	HeadOnSpot   Spot = "head"
	CentreOnSpot Spot = "centre"
)

// ParseSpot reads "head" or "centre".
func ParseSpot(s string) (Spot, error) {
	switch spot := Spot(s); spot {
	case HeadOnSpot, CentreOnSpot:
		return spot, nil
	}
	return "", fmt.Errorf("spot %q: the ball on the foot spot is head or centre", s)
}

// SlotPlace returns where the ball of a slot stands when the rack is tight, and
// false for a slot the game does not have.
func (g Game) SlotPlace(slot Slot, spot Spot, k table.Kind) (table.Place, bool) {
	for _, s := range g.ruleSet().seats {
		if s.slot == slot {
			return g.seatPlace(s, spot, k), true
		}
	}
	return table.Place{}, false
}

// HeadBallPlace returns where the ball of the head slot stands.
func (g Game) HeadBallPlace(spot Spot, k table.Kind) table.Place {
	at := k.FootSpot()
	if spot == CentreOnSpot {
		at.Y -= 2 * RowPitch
	}
	return at
}

func (g Game) seatPlace(s rackSeat, spot Spot, k table.Kind) table.Place {
	at := g.HeadBallPlace(spot, k)
	at.X += table.Inches(s.halfBalls) * table.BallRadius
	at.Y += table.Inches(s.rows) * RowPitch
	return at
}

// SlotInLine returns the slot in the last two rows whose ball lies nearest to
// the line from the cue ball through the head ball, as a target to shoot
// through: a full hit is easiest to see as a line that runs on into the rack.
func (g Game) SlotInLine(cue table.Place, spot Spot, k table.Kind) Slot {
	head := g.HeadBallPlace(spot, k)
	dx, dy := float64(head.X-cue.X), float64(head.Y-cue.Y)
	seats := g.ruleSet().seats
	last := seats[len(seats)-1].rows
	best, bestOff := HeadSlot, math.Inf(1)
	for _, s := range seats {
		if s.rows < last-1 {
			continue
		}
		at := g.seatPlace(s, spot, k)
		off := math.Abs(float64(at.X-head.X)*dy-float64(at.Y-head.Y)*dx) / math.Hypot(dx, dy)
		if off < bestOff {
			best, bestOff = s.slot, off
		}
	}
	return best
}
