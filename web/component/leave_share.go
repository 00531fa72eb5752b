package component

import (
	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/table"
	"breakwright/web/picture"
)

// LeaveShare is how many of a student's breaks left a shot.
type LeaveShare struct {
	Rate picture.RateView
	Says string
	// Path is the page that says more.
	Path string
}

// NewLeaveShare counts the shots of breaks under one setup, for a club player; nil
// when nothing is known of them.
func NewLeaveShare(breaks []drill.Break, s drill.Setup, k table.Kind, path string) *LeaveShare {
	leaves := make([]leave.Leave, len(breaks))
	for i, b := range breaks {
		leaves[i] = leave.FromBreak(b, s, k)
	}
	counts := leave.CountShots(leaves, leave.PlayerAt(leave.Club))
	if counts.Unknown+counts.Lost == counts.Breaks {
		return nil
	}
	return &LeaveShare{Rate: ShotRate("leave-share", s.Game, counts, 0), Says: counts.Describe(k.StandardWindow()), Path: path}
}
