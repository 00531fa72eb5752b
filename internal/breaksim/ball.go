package breaksim

// motionPhase says how a ball moves until its next event.
type motionPhase uint8

const (
	still    motionPhase = iota // may still spin about the vertical
	sliding                     // its base slips on the cloth
	rolling                     // its base does not
	airborne                    // off the cloth
	pressed                     // in the stiff phase: moved in steps, not in closed form
	gone                        // pocketed or off the table
)

// ballState is one ball from the event at time `from` on: where it was then, how it
// moved, and what its motion does with it until the time `until`, when the
// phase ends by itself.
type ballState struct {
	phase       motionPhase
	from, until float64
	p           vec // z is the height of its base above the cloth
	v, w        vec // velocity, spin
	a           vec // acceleration
	turn        vec // change of spin about the flat axes; the vertical one is spinDown
}

// isFree reports whether the ball moves in closed form or stands.
func (b *ballState) isFree() bool { return b.phase < pressed }

// isMoving reports whether the ball moves at all.
func (b *ballState) isMoving() bool { return b.phase != still && b.phase != gone }

// slipOnCloth is the velocity of the ball's base along the cloth.
func (c *constants) slipOnCloth(b *ballState) vec {
	return vec{x: b.v.x - c.radius*b.w.y, y: b.v.y + c.radius*b.w.x}
}
