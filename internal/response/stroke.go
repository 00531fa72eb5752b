package response

import (
	"math"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Stroke is what really happens at a break, not what was told, in the frame of
// a break from the left.
type Stroke struct {
	// Out is how far the cue ball stands from the long string, toward the break
	// side; Behind how far behind the head string.
	Out, Behind table.Inches
	// Contact is how far right of full the cue ball meets the head ball, as the
	// breaker sees it.
	Contact table.Inches
	// Tip is the height the tip strikes, follow positive, and Spin its place
	// across, right positive: fractions of the ball's radius.
	Tip, Spin float64
	Speed     table.Mph
	// Unsteady is how wide the stroke scatters: 1 is aim 0.2 degrees, speed half
	// a mile an hour and tip a twentieth of a radius (standard deviations).
	Unsteady float64
	// Gap is how loosely the balls stand in the rack: the standard deviation of
	// each ball's place.
	Gap table.Inches
	// Table is how the table plays on which it happens.
	Table Character
}

// Character is how a table plays: what its cloth, cushions, balls and shelves make of a
// break, in the few numbers that breaks tell apart, the one that shows most first. Each has
// a mean of 0 and a standard deviation of 1 over all tables that are plausible. The last,
// Instant, is of how a rack hands on a blow: 0 where touching balls share it, as computed,
// 1 where each pair of them has parted before the next meets, which no balls quite do. The
// zero Character is of a table of which nothing is known.
type Character [CharacterSize]float32

// CharacterSize is how many numbers make a Character; Instant is the place of the last.
const (
	CharacterSize = 4
	Instant       = CharacterSize - 1
)

// Rack is which network answers: the game and the ball on the foot spot.
type Rack struct {
	Game rack.Game
	Spot rack.Spot
}

// String is how a command line has it, such as "nine-ball/head".
func (r Rack) String() string { return string(r.Game) + "/" + string(r.Spot) }

// ownInputs is how many numbers the networks read of a stroke itself, InputCount how many
// in all.
const (
	ownInputs  = 12
	InputCount = ownInputs + CharacterSize
)

// Inputs are the numbers that the networks read.
type Inputs [InputCount]float32

// Normalise returns the numbers that the networks read, each about from -1 to 1, those of
// the table last.
func (s Stroke) Normalise(k table.Kind, spot rack.Spot) Inputs {
	distance := float64(k.FootSpot().Y-k.HeadString()) + float64(s.Behind)
	if spot == rack.CentreOnSpot {
		distance -= 2 * rowPitch
	}
	// The line of centres at the head ball, from straight down the table: what
	// turns the wing ball, since place and contact both turn it.
	contact := math.Asin(math.Max(-1, math.Min(1, float64(s.Contact)/float64(table.BallDiameter))))
	centres := math.Atan2(float64(s.Out), distance) - contact
	inputs := Inputs{
		float32(float64(s.Out)/float64(k.Width())*4 - 1),
		float32(float64(s.Behind)/5 - 1),
		float32(float64(s.Contact) / 0.5),
		float32(s.Tip / 0.3),
		float32(s.Spin / 0.3),
		float32((float64(s.Speed) - 17) / 6),
		float32(math.Log(s.Unsteady)),
		float32(math.Log(float64(s.Gap)/0.004) / 1.5),
		float32(k.Feet) - 8,
		float32((float64(k.CornerMouth) - 4.5) / 0.4),
		float32(centres*4 - 1),
		float32(s.Tip * float64(s.Speed) / 6),
	}
	copy(inputs[ownInputs:], s.Table[:])
	return inputs
}

// rowPitch is the distance of two rows of the rack, in inches.
const rowPitch = 1.9485571585149868
