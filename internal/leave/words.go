package leave

import (
	"fmt"
	"math"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
)

// TargetWords names what may be shot at: the lowest ball, and in eight-ball, where the
// table is open after the break, the ball with the best shot.
func TargetWords(g rack.Game) string {
	if g == rack.EightBall {
		return "the easiest ball"
	}
	return "the lowest ball"
}

// Describe tells the answer in a sentence: "An open shot on the 1 into the left head
// corner, about 7 of 10, if nothing else lies on the line."
func (a FoundShots) Describe(l Leave) string {
	switch {
	case l.Won:
		return "The 9 went down: the rack is won."
	case a.Ball == 0:
		return "Nothing is left to shoot at."
	case a.Shot == "":
		return fmt.Sprintf("Not known: the %s was not placed.", a.Ball)
	}
	s := a.headline(l)
	if !a.Certain && a.Shot != drill.ShotNone {
		s += ", if nothing else lies on the line"
	}
	return s + hands[l.Hand] + "."
}

var hands = map[CueBallHand]string{
	Anywhere: "; it is the opponent's, with the cue ball in hand",
	Kitchen:  "; it is the opponent's, with the cue ball in hand behind the head string",
}

func (a FoundShots) headline(l Leave) string {
	if len(a.Shots) == 0 || a.Shot == drill.ShotNone {
		if a.Shot == drill.ShotOpen {
			return fmt.Sprintf("A shot on the %s from somewhere", a.Ball)
		}
		return fmt.Sprintf("No shot on the %s%s", a.Ball, inTheWay(a.Shots))
	}
	best := a.Shown()
	word := map[drill.Shot]string{drill.ShotOpen: "An open shot", drill.ShotHard: "A hard shot"}[a.Shot]
	if best.Way != Direct {
		word = "Only a " + string(best.Way)
		if direct, _ := a.Direct(); direct.Chance >= UsualLines.Hard {
			word = "A " + string(best.Way)
		}
	}
	return fmt.Sprintf("%s on the %s into %s, %s", word, a.Ball, best.Pocket.Words(), ChanceWords(best.Chance))
}

// inTheWay names what blocks direct shots, if anything does.
func inTheWay(shots []Shot) string {
	var balls uint32
	for _, s := range shots {
		if s.Way == Direct {
			for _, b := range s.BlockedBy {
				balls |= 1 << b
			}
		}
	}
	var names []string
	for b := rack.Ball(1); b <= rack.HighestBall; b++ {
		if balls&(1<<b) != 0 {
			names = append(names, "the "+b.String())
		}
	}
	if len(names) == 0 {
		return ""
	}
	return ": " + strings.Join(names, " and ") + " in the way"
}

// ChanceWords says how often of ten a shot goes in. Rounded it says no more than the line
// between open and hard allows: what is under the line is under it in words.
func ChanceWords(chance float64) string {
	switch n := math.Round(chance * 10); {
	case n < 1:
		return "less than once in ten"
	case n > 9:
		return "nearly every time"
	case chance < UsualLines.Open && n >= 10*UsualLines.Open:
		return fmt.Sprintf("just under %g of 10", n)
	default:
		return fmt.Sprintf("about %g of 10", n)
	}
}
