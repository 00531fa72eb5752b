package leave

import (
	"cmp"
	"slices"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Lines say from which chance on a shot is called open, and from which on there
// is one at all.
type Lines struct{ Open, Hard float64 }

// UsualLines: open is made more often than not, hard at least one time in ten
// (our choice; common practice has no numbers).
var UsualLines = Lines{Open: 0.5, Hard: 0.1}

// faintest is the chance below which banks and kicks are not worth a word.
const faintest = 0.05

// Player is who comes to the table.
type Player struct {
	Accuracy Accuracy
	Lines    Lines
}

// PlayerAt returns a player of a level with the usual lines.
func PlayerAt(a Accuracy) Player { return Player{a, UsualLines} }

// FoundShots says what shot a leave gives.
type FoundShots struct {
	// Ball is the ball the shots are on: the lowest; in eight-ball the one with
	// the best shot. 0 when there is nothing to shoot at.
	Ball rack.Ball
	// Shot is open, hard or none; empty when that is not known, because the ball
	// was not placed or the rack is won. After a foul on the break it is the
	// opponent's shot, with the cue ball in hand.
	Shot drill.Shot
	// Certain says that the answer does not hang on balls that were not placed.
	Certain bool
	// Shots lists the shots on the ball, likeliest first: direct ones into every
	// pocket that the geometry allows, with what blocks them, then banks and kicks
	// that have a chance.
	Shots []Shot
}

// FindShots looks for the shots of a leave.
func FindShots(l Leave, p Player) FoundShots {
	if l.needsMirror() {
		a := FindShots(l.Mirror(), p)
		for i := range a.Shots {
			a.Shots[i] = a.Shots[i].mirror()
		}
		return a
	}
	best := FoundShots{}
	for i, ball := range l.Targets() {
		a := l.answerFor(ball, p)
		if i == 0 || a.better(best) {
			best = a
		}
	}
	return best
}

// needsMirror reports whether the leave is looked at in the mirror, so that left and
// right can never come out differently.
func (l Leave) needsMirror() bool {
	if l.Hand == InPlay && l.Cue.X != 0 {
		return l.Cue.X > 0
	}
	for _, r := range l.Placed {
		if r.Place.X != 0 {
			return r.Place.X > 0
		}
	}
	return false
}

func (a FoundShots) better(b FoundShots) bool {
	if known := a.Shot != ""; known != (b.Shot != "") {
		return known
	}
	return a.best() > b.best()
}

func (a FoundShots) best() float64 {
	if len(a.Shots) == 0 {
		return 0
	}
	return a.Shots[0].Chance
}

// answerFor is the answer for one ball.
func (l Leave) answerFor(ball rack.Ball, p Player) FoundShots {
	a := FoundShots{Ball: ball}
	on, placed := l.Place(ball)
	switch {
	case !placed && l.Hand == Anywhere:
		a.Shot = drill.ShotOpen // from somewhere there always is one
		return a
	case !placed:
		return a
	case l.Hand != InPlay:
		a.Shots = l.findShotsInHand(ball, on, p.Accuracy)
	default:
		a.Shots = l.findShotsFrom(ball, l.Cue, on, p.Accuracy)
	}
	a.Shot = p.Lines.judge(a.Shots)
	a.Certain = len(l.Unplaced) == 0 || a.Shot == drill.ShotNone && l.Game != rack.EightBall
	return a
}

func (n Lines) judge(shots []Shot) drill.Shot {
	verdict := drill.ShotNone
	for _, s := range shots {
		switch {
		case s.Way == Direct && s.Chance >= n.Open:
			return drill.ShotOpen
		case s.Chance >= n.Hard:
			verdict = drill.ShotHard
		}
	}
	return verdict
}

// findShotsFrom lists all shots from a place of the cue ball.
func (l Leave) findShotsFrom(ball rack.Ball, cue, on table.Place, a Accuracy) []Shot {
	s := newSearch(l, ball, on, a)
	found := make([]Shot, 0, 10)
	found = s.findDirect(cue, found)
	for _, r := range table.Rails() {
		found = s.findBanks(cue, r, found)
		found = s.findKicks(cue, r, found)
	}
	sortShots(found)
	return found
}

// sortShots puts the likeliest first; among equals those from the table's list
// of pockets stay in its order.
func sortShots(shots []Shot) {
	slices.SortStableFunc(shots, func(a, b Shot) int {
		if (a.Way == Direct) != (b.Way == Direct) && a.Chance == b.Chance {
			if a.Way == Direct {
				return -1
			}
			return 1
		}
		return cmp.Compare(b.Chance, a.Chance)
	})
}

func (s Shot) mirror() Shot {
	s.Pocket = s.Pocket.Mirror()
	if s.Rail != "" {
		s.Rail = s.Rail.Mirror()
	}
	s.Cue, s.Ghost, s.Target = s.Cue.Mirror(), s.Ghost.Mirror(), s.Target.Mirror()
	s.Turn = s.Turn.Mirror()
	return s
}
