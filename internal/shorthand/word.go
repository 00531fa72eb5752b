package shorthand

import (
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Key is one sign of the shorthand with what it stands for.
type Key[T any] struct {
	Sign  string
	Means T
}

// The signs, in the order in which a sheet prints them. The wing ball's first
// sign, in its corner, is Made.
const (
	Made = "1"
	off  = "o"
)

var (
	// Misses are what a wing ball that stayed up met first.
	Misses = []Key[drill.WingMiss]{
		{"s", drill.MissSideRail}, {"f", drill.MissFootRail}, {"k", drill.MissKissed}, {"j", drill.MissJaws}, {"?", drill.MissUnknown},
	}
	// Paths are the cue ball's ways.
	Paths = []Key[drill.CuePath]{
		{"b", drill.PathBack}, {"h", drill.PathHeadRail}, {"w", drill.PathForward}, {"t", drill.PathHit},
	}
	// Shots are the answers on the lowest ball.
	Shots = []Key[drill.Shot]{{"+", drill.ShotOpen}, {"=", drill.ShotHard}, {"-", drill.ShotNone}}
	// Pockets from the head end to the foot, left before right.
	Pockets = []Key[table.Pocket]{
		{"hl", table.HeadLeft}, {"hr", table.HeadRight}, {"sl", table.SideLeft}, {"sr", table.SideRight},
		{"fl", table.FootLeft}, {"fr", table.FootRight},
	}
)

// meaning finds what a sign stands for.
func meaning[T any](keys []Key[T], sign string) (T, bool) {
	for _, k := range keys {
		if k.Sign == sign {
			return k.Means, true
		}
	}
	var none T
	return none, false
}
