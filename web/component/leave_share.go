package component

import (
	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/table"
	"breakwright/web/picture"
)

// LeaveShare is how many of a student's breaks left a shot, and how many racks were run
// out from them.
type LeaveShare struct {
	Rates []picture.RateView
	// Says counts the shots; "" when nothing is known of them.
	Says string
	// Path is the page that says more.
	Path string
}

// NewLeaveShare counts the shots of breaks under one setup, for a club player, and the
// racks run out; nil when nothing is known of either.
func NewLeaveShare(breaks []drill.Break, s drill.Setup, k table.Kind, asked drill.Targets, path string) *LeaveShare {
	leaves := make([]leave.Leave, len(breaks))
	for i, b := range breaks {
		leaves[i] = leave.FromBreak(b, s, k)
	}
	share := LeaveShare{Path: path}
	if counts := leave.CountShots(leaves, leave.PlayerAt(leave.Club)); counts.Unknown+counts.Lost < counts.Breaks {
		share.Rates, share.Says = append(share.Rates, ShotRate("leave-share", s.Game, counts, asked.Shot)), counts.Describe(k.StandardWindow())
	}
	if ran := ranOutRate("leave-ran-out", breaks, asked.RanOut); ran.Of > 0 {
		share.Rates = append(share.Rates, ran)
	}
	if share.Rates == nil {
		return nil
	}
	return &share
}
