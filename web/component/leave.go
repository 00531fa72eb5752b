package component

import (
	"fmt"
	"strconv"

	"breakwright/internal/drill"
	"breakwright/internal/leave"
	"breakwright/internal/rack"
	"breakwright/internal/table"
	"breakwright/web/picture"
)

// LeaveList is what the breaks of a set left.
type LeaveList struct {
	// Says counts the shots; "" when nothing is known of them.
	Says string
	// Rates are what the drill asks of the leave.
	Rates []picture.RateView
	// Lines are the breaks of which the ball to be shot at was placed.
	Lines []LeaveLine
}

// LeaveLine is one break's leave.
type LeaveLine struct {
	Number  int
	Picture picture.LeaveView
	// Noted is the student's own word where it is another than the finder's.
	Noted string
}

// ListLeaves looks at the leaves of a set's breaks. Pictures have ids that begin
// with id.
func ListLeaves(id string, breaks []drill.Break, s drill.Setup, k table.Kind, p leave.Player, asked drill.Targets) LeaveList {
	var list LeaveList
	var known []leave.Leave
	for _, b := range breaks {
		l := leave.FromBreak(b, s, k)
		known = append(known, l)
		found := leave.FindShots(l, p)
		if _, placed := l.Place(found.Ball); !placed || l.Won {
			continue
		}
		line := LeaveLine{Number: b.Number, Picture: NewLeavePicture(fmt.Sprintf("%s-%d", id, b.Number), l, found)}
		line.Picture.Title = "Break " + strconv.Itoa(b.Number)
		if b.Shot != "" && b.Shot != found.Shot {
			line.Noted = shotWords(b.Shot)
		}
		list.Lines = append(list.Lines, line)
	}
	counts := leave.CountShots(known, p)
	if counts.Unknown+counts.Lost < counts.Breaks {
		list.Says = counts.Describe(k.StandardWindow())
	}
	if asked.Shot > 0 {
		list.Rates = append(list.Rates, ShotRate(id+"-shot", s.Game, counts, asked.Shot))
	}
	if asked.RanOut > 0 {
		list.Rates = append(list.Rates, ranOutRate(id+"-ran-out", breaks, asked.RanOut))
	}
	return list
}

// ShotRate is how many breaks left an open shot on the ball to shoot at, of those that
// it is known of; breaks that lost the table left none, those that won count.
func ShotRate(id string, g rack.Game, s leave.Summary, target float64) picture.RateView {
	label := "An open shot on " + leave.TargetWords(g)
	if s.Won > 0 {
		label += ", or the rack won"
	}
	return newRateView(id, label, s.Open+s.Won, s.Breaks-s.Unknown, target)
}

func ranOutRate(id string, breaks []drill.Break, target float64) picture.RateView {
	made, of := 0, 0
	for _, b := range breaks {
		made += countIfTrue(b.RanOut == drill.RanOutYes)
		of += countIfTrue(b.RanOut != "")
	}
	return newRateView(id, "Table run out", made, of, target)
}

// NewLeavePicture draws a leave with the shot that is told of it, where there is one.
func NewLeavePicture(id string, l leave.Leave, a leave.FoundShots) picture.LeaveView {
	v := picture.LeaveView{ID: id, Kind: l.Kind, Words: a.Describe(l)}
	if l.Hand == leave.InPlay {
		cue := l.Cue
		v.Cue = &cue
	}
	for _, r := range l.Placed {
		v.Balls = append(v.Balls, picture.RestBall{Ball: r.Ball, Place: r.Place})
	}
	if a.Shot == drill.ShotNone || len(a.Shots) == 0 || l.Hand != leave.InPlay {
		return v
	}
	on, _ := l.Place(a.Ball)
	best := a.Shown()
	line := picture.ShotLine{Cue: []table.Place{best.Cue}, Ball: []table.Place{on}}
	switch best.Way {
	case leave.Kick:
		line.Cue = append(line.Cue, best.Turn)
		line.Ball = append(line.Ball, best.Target)
	case leave.Bank:
		line.Ball = append(line.Ball, best.Turn, l.Kind.PocketMouth(best.Pocket).Middle)
	default:
		line.Ball = append(line.Ball, best.Target)
	}
	line.Cue = append(line.Cue, best.Ghost)
	v.Shot = &line
	return v
}
