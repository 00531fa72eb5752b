package leave

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// scattered is a nine-ball leave with so many balls anywhere on a 9-foot table.
func scattered(balls int, rng *rand.Rand) Leave {
	k := table.NineFoot()
	anywhere := func() table.Place {
		return k.SettleBall(table.Place{X: table.Inches(50*rng.Float64() - 25), Y: table.Inches(100 * rng.Float64())})
	}
	l := Leave{Kind: k, Game: rack.NineBall, Cue: anywhere()}
	for len(l.Placed) < balls {
		if p := anywhere(); l.clear(p) && p.Distance(l.Cue) > table.BallDiameter {
			l.Placed = append(l.Placed, drill.RestingBall{Ball: rack.Ball(len(l.Placed) + 1), Place: p})
		}
	}
	return l
}

func BenchmarkFindShots(b *testing.B) {
	for _, balls := range []int{3, 9} {
		rng := rand.New(rand.NewPCG(4, uint64(balls)))
		var leaves []Leave
		for range 500 {
			leaves = append(leaves, scattered(balls, rng))
		}
		b.Run(fmt.Sprintf("%d balls", balls), func(b *testing.B) {
			for i := range b.N {
				FindShots(leaves[i%len(leaves)], PlayerAt(Club))
			}
		})
	}
}
