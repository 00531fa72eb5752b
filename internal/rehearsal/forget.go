package rehearsal

import "breakwright/internal/drill"

// Fact is something that a student may tap in after a break. What each is worth is
// seen when the adviser is kept from it.
type Fact string

// The facts that a student may leave out. Which balls fell and where the cue ball
// ended is always recorded.
const (
	FactMisses Fact = "misses" // what a missed wing ball met first
	FactPath   Fact = "path"   // how the cue ball came to rest
	FactRails  Fact = "rails"  // balls to a rail and past the head string
	FactRests  Fact = "rests"  // where low balls rest
	FactShots  Fact = "shots"  // whether there is a shot on the lowest ball
	FactSpeed  Fact = "speed"  // as measured
)

// Facts lists them.
func Facts() []Fact {
	return []Fact{FactMisses, FactPath, FactRails, FactRests, FactShots, FactSpeed}
}

// forgetters take a fact out of a break.
var forgetters = map[Fact]func(*drill.Break){
	FactMisses: func(b *drill.Break) {
		if b.WingMiss != "" {
			b.WingMiss = drill.MissUnknown
		}
	},
	FactPath: func(b *drill.Break) {
		if b.CuePath != "" {
			b.CuePath = drill.PathUnknown
		}
	},
	FactRails: func(b *drill.Break) { b.Rails, b.PastString = nil, nil },
	FactRests: func(b *drill.Break) { b.Rest = nil },
	FactShots: func(b *drill.Break) { b.Shot = "" },
	FactSpeed: func(b *drill.Break) { b.Speed = 0 },
}
