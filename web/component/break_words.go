package component

import (
	"slices"
	"strconv"
	"strings"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
)

// BreakWords says in one line what is recorded of a break.
func BreakWords(b drill.Break, s drill.Setup, k table.Kind) string {
	parts := []string{WingWords(b, s)}
	if others := otherBallsDropped(b, s.WingBall()); len(others) > 0 {
		parts = append(parts, "also down: "+strings.Join(others, ", "))
	}
	for _, ball := range b.Off {
		if ball != s.WingBall() {
			parts = append(parts, "the "+ball.String()+" off the table")
		}
	}
	parts = append(parts, cueWords(b, k))
	if b.Shot != "" {
		parts = append(parts, shotWords(b.Shot))
	}
	if b.Racked != "" {
		parts = append(parts, rackedWords(b.Racked))
	}
	return say.Capitalize(strings.Join(parts, "; "))
}

// AllBreakWords says all that is recorded of a break, as it is said before it is
// saved: what [BreakWords] says, and what is counted and noted beside it.
func AllBreakWords(b drill.Break, s drill.Setup, k table.Kind, u say.Units) string {
	parts := []string{BreakWords(b, s, k)}
	for _, r := range b.Rest {
		parts = append(parts, "the "+r.Ball.String()+" "+k.ZoneWords(r.Place))
	}
	if b.CuePath == drill.PathUnknown {
		parts = append(parts, "how it got there not seen")
	}
	if b.Rails != nil {
		parts = append(parts, strconv.Itoa(*b.Rails)+" to a rail")
	}
	if b.PastString != nil {
		parts = append(parts, strconv.Itoa(*b.PastString)+" past the head string")
	}
	switch b.RanOut {
	case drill.RanOutYes:
		parts = append(parts, "run out")
	case drill.RanOutNo:
		parts = append(parts, "not run out")
	}
	if b.Speed != 0 {
		parts = append(parts, u.Speed(b.Speed))
	}
	if b.Note != "" {
		parts = append(parts, "“"+b.Note+"”")
	}
	return strings.Join(parts, "; ")
}

// WingWords says what became of the wing ball: "the 8 in its corner".
func WingWords(b drill.Break, s drill.Setup) string {
	wing := "the " + s.WingBall().String()
	pocket, down := b.PocketOf(s.WingBall())
	switch {
	case slices.Contains(b.Off, s.WingBall()):
		return wing + " off the table"
	case !b.IsWatched() && !down:
		return wing + " not watched"
	case b.WingMade(s):
		return wing + " in its corner"
	case down:
		return wing + " in " + pocket.Words()
	case b.WingMiss != "" && b.WingMiss != drill.MissUnknown:
		return wing + " stayed up, " + MissWords(b.WingMiss)
	}
	return wing + " stayed up"
}

func otherBallsDropped(b drill.Break, but rack.Ball) []string {
	var words []string
	for _, p := range b.Pocketed {
		if p.Ball != but {
			words = append(words, "the "+p.Ball.String()+" in "+p.Pocket.Words())
		}
	}
	return words
}

func cueWords(b drill.Break, k table.Kind) string {
	switch b.Cue.How {
	case drill.Scratched:
		return "scratch in " + b.Cue.Scratch.Words()
	case drill.OffTable:
		return "the cue ball off the table"
	}
	words := "the cue ball " + k.ZoneWords(b.Cue.Place)
	if path := PathWords(b.CuePath); path != "" {
		words += ", " + path
	}
	return words
}

// MissWords finishes "the wing ball stayed up, …".
func MissWords(m drill.WingMiss) string {
	switch m {
	case drill.MissSideRail:
		return "side rail first"
	case drill.MissFootRail:
		return "foot rail first"
	case drill.MissKissed:
		return "kissed by another ball"
	case drill.MissJaws:
		return "rattled in the jaws"
	case drill.NotWatched:
		return "not watched"
	}
	return "not seen how"
}

// PathWords says how the cue ball got where it stopped, or "".
func PathWords(p drill.CuePath) string {
	switch p {
	case drill.PathBack:
		return "back off the rack"
	case drill.PathHeadRail:
		return "off the head rail"
	case drill.PathForward:
		return "on forward"
	case drill.PathHit:
		return "hit by another ball"
	}
	return ""
}

func shotWords(s drill.Shot) string {
	switch s {
	case drill.ShotOpen:
		return "an open shot"
	case drill.ShotHard:
		return "a hard shot"
	}
	return "no shot"
}

func rackedWords(r drill.Racked) string {
	if r == drill.RackedTight {
		return "the rack tight"
	}
	return "a gap in the rack"
}

// StruckWords say what became of a break that does not count as it was, each person in the
// reader's words for them: "Changed by a coach: the 8 stayed up".
func StruckWords(b store.StruckBreak, student, coach string) string {
	who := func(id store.PersonID) string {
		if store.IsZero(id) {
			return student
		}
		return coach
	}
	words := "Taken out by " + who(b.By)
	switch {
	case b.Corrected:
		words = "Changed by " + who(b.By)
	case b.IsBack && who(b.By) == who(b.BackBy):
		words = "Taken out and put back by " + who(b.By)
	case b.IsBack:
		words += " and put back by " + who(b.BackBy)
	}
	if b.Reason == "" {
		return words + "."
	}
	return words + ": " + b.Reason
}
