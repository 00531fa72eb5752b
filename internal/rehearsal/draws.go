package rehearsal

import (
	"math/rand/v2"

	"breakwright/internal/table"
)

// draws are the draws of what a student being made is like.
type draws struct{ rng *rand.Rand }

func (d draws) drawBetween(low, high float64) float64 {
	return low + (high-low)*d.rng.Float64()
}

// drawSign is one of two ways, each as likely.
func (d draws) drawSign() float64 {
	if d.rng.IntN(2) == 0 {
		return -1
	}
	return 1
}

// drawSide is one of the two sides, each as likely.
func (d draws) drawSide() table.Side {
	if d.rng.IntN(2) == 0 {
		return table.Right
	}
	return table.Left
}
