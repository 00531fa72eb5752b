package component

import (
	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/web/picture"
)

// LeaveShare is how many of a student's breaks left a shot, and how many racks were run
// out from them.
type LeaveShare struct {
	Rates []picture.RateView
	// Says counts the shots; "" when nothing is known of them.
	Says string
	// Counts say the rates in few words: "open shot 20 of 30".
	Counts []string
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
		share.addRate(ShotRate("leave-share", s.Game, counts, asked.Shot), shortShotWords(counts))
		share.Says = counts.Describe(k.StandardWindow())
	}
	if ran := ranOutRate("leave-ran-out", breaks, asked.RanOut); ran.Of > 0 {
		share.addRate(ran, "run out")
	}
	if share.Rates == nil {
		return nil
	}
	return &share
}

func (s *LeaveShare) addRate(r picture.RateView, short string) {
	s.Rates = append(s.Rates, r)
	s.Counts = append(s.Counts, short+" "+say.OfTotalUnbroken(r.Made, r.Of))
}

// shortShotWords are [ShotRate]'s label where there is little room.
func shortShotWords(s leave.Summary) string {
	if s.Won > 0 {
		return "open shot or rack won"
	}
	return "open shot"
}
