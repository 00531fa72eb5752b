package advice

import (
	"fmt"
	"math/rand/v2"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// pickRandom draws one of several.
func pickRandom[T any](rng *rand.Rand, of ...T) T { return of[rng.IntN(len(of))] }

// randomHistory draws any history that could have been recorded: several
// tables, games and sides, setups beyond what is taught, much unobserved.
func randomHistory(rng *rand.Rand) []drill.Set {
	sets := make([]drill.Set, rng.IntN(7))
	kind := pickRandom(rng, table.SevenFoot(), table.EightFoot(), table.NineFoot())
	setup := randomSetup(rng, kind)
	for i := range sets {
		if rng.IntN(4) == 0 {
			setup = randomSetup(rng, kind)
		} else if rng.IntN(2) == 0 {
			setup.Cue.X /= 2
		}
		sets[i] = drill.Set{
			Student: "Odile", Name: fmt.Sprintf("r%d", i), Kind: kind, Setup: setup,
			Table: pickRandom(rng, "North", "North", "South"),
		}
		for j := range rng.IntN(16) {
			sets[i].Breaks = append(sets[i].Breaks, randomBreak(rng, setup, kind, j+1))
		}
	}
	return sets
}

func randomSetup(rng *rand.Rand, k table.Kind) drill.Setup {
	game := pickRandom(rng, rack.NineBall, rack.NineBall, rack.TenBall, rack.EightBall)
	side := pickRandom(rng, table.Left, table.Right)
	s := drill.StandardSetup(game, side, k)
	s.Spot = pickRandom(rng, game.Spots()...)
	s.Cue.X = side.Sign() * table.Inches(rng.Float64()) * k.Width() / 2
	s.Cue.Y = k.HeadString() - table.Inches(rng.Float64()*15)
	s.Contact = table.Inches(rng.NormFloat64() * 0.3)
	s.Tip = drill.RadiusFraction(max(-1, min(1, rng.NormFloat64()*0.4)))
	s.Spin = drill.RadiusFraction(max(-1, min(1, rng.NormFloat64()*0.2)))
	s.Speed = pickRandom(rng, 0, 18, table.Mph(1+30*rng.Float64()))
	return s.Rounded()
}

// randomBreak leans so that patterns occur.
func randomBreak(rng *rand.Rand, s drill.Setup, k table.Kind, number int) drill.Break {
	b := drill.Break{Number: number}
	switch rng.IntN(5) {
	case 0, 1:
		b.Pocketed = []drill.Pocketed{{Ball: s.WingBall(), Pocket: pickRandom(rng, s.WingPocket(), table.HeadLeft)}}
	default:
		b.WingMiss = pickRandom(rng, drill.MissSideRail, drill.MissSideRail, drill.MissFootRail, drill.MissKissed, drill.MissJaws, drill.MissUnknown, "")
	}
	switch rng.IntN(8) {
	case 0:
		b.Cue = drill.CueEnd{How: drill.Scratched, Scratch: pickRandom(rng, table.Pockets()...)}
	case 1:
		b.Cue = drill.CueEnd{How: drill.OffTable}
	default:
		b.Cue = drill.CueEnd{How: drill.Stopped, Place: table.Place{
			X: table.Inches(rng.Float64()-0.5) * k.Width(), Y: table.Inches(rng.Float64()) * k.Length(),
		}}
		b.CuePath = pickRandom(rng, drill.PathForward, drill.PathBack, drill.PathHeadRail, drill.PathHit, drill.PathUnknown, "")
	}
	if rng.IntN(2) == 0 {
		b.Rails = drill.ObservedCount(rng.IntN(8))
	}
	b.Shot = pickRandom(rng, drill.ShotOpen, drill.ShotHard, drill.ShotNone, "")
	if rng.IntN(3) == 0 {
		b.Rest = []drill.RestingBall{{Ball: s.HeadBall() + 1, Place: table.Place{Y: table.Inches(rng.Float64()) * k.Length()}}}
	}
	return b
}

// leaningHistory draws a history in which changes are common: one table, a
// taught setup and a strong pattern, the same in every set.
func leaningHistory(rng *rand.Rand) []drill.Set {
	y := standardStudent()
	y.curved = rng.IntN(2) == 0
	y.start.Cue.X = -table.Inches(6 + rng.IntN(17))
	y.start.Contact = table.Inches(rng.IntN(7)-3) / 10
	y.start.Tip = drill.RadiusFraction(rng.IntN(9)-5) / 10
	y.start.Speed = table.Mph(16 + rng.IntN(8))
	y.seen = pickRandom(rng, 0, 0.7, 1)
	y.steady = pickRandom(rng, 1, 1, 2.5)
	y.start = y.start.Rounded()
	var history []drill.Set
	s := y.start
	for i := range 1 + rng.IntN(5) {
		history = append(history, virtualSet(y, rng, i, s))
		s = Judge(history, Brief{}).Next
	}
	return history
}
