package shorthand

import (
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// SignMeaning is one sign of the shorthand with what it stands for.
type SignMeaning[T any] struct {
	Sign  string
	Means T
}

// The signs, in the order in which a sheet prints them. The wing ball's first
// sign, in its corner, is Made.
const (
	MadeSign = "1"
	offSign  = "o"
)

var (
	// MissSigns are what a wing ball that stayed up met first, and that nobody
	// watched it.
	MissSigns = []SignMeaning[drill.WingMiss]{
		{"s", drill.MissSideRail}, {"f", drill.MissFootRail}, {"k", drill.MissKissed}, {"j", drill.MissJaws}, {"?", drill.MissUnknown},
		{"x", drill.NotWatched},
	}
	// PathSigns are the cue ball's ways.
	PathSigns = []SignMeaning[drill.CuePath]{
		{"b", drill.PathBack}, {"h", drill.PathHeadRail}, {"w", drill.PathForward}, {"t", drill.PathHit},
	}
	// ShotSigns are the answers on the lowest ball.
	ShotSigns = []SignMeaning[drill.Shot]{{"+", drill.ShotOpen}, {"=", drill.ShotHard}, {"-", drill.ShotNone}}
	// PocketSigns from the head end to the foot, left before right.
	PocketSigns = []SignMeaning[table.Pocket]{
		{"hl", table.HeadLeft}, {"hr", table.HeadRight}, {"sl", table.SideLeft}, {"sr", table.SideRight},
		{"fl", table.FootLeft}, {"fr", table.FootRight},
	}
)

// meaningOf finds what a sign stands for.
func meaningOf[T any](keys []SignMeaning[T], sign string) (T, bool) {
	for _, k := range keys {
		if k.Sign == sign {
			return k.Means, true
		}
	}
	var none T
	return none, false
}
