package rehearsal

import (
	"math"
	"math/rand/v2"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// noteBreak is what the student writes down of a computed break. What drops, what
// flies and where the cue ball ends is always written down, and right; the rest
// is up to the habits.
func (h Habit) noteBreak(s drill.Setup, speed table.Mph, r breaksim.BreakResult, k table.Kind, rng *rand.Rand) drill.Break {
	var b drill.Break
	for _, p := range r.Pocketed {
		b.Pocketed = append(b.Pocketed, drill.Pocketed{Ball: p.Ball, Pocket: p.Pocket})
	}
	b.Off = append(b.Off, r.Off...)
	b.Cue = cueEndOf(r.CueBallEnd(), k)
	wing, _ := r.BallInSlot(s.Wing)
	if wing.End == breaksim.Stopped {
		h.noteMiss(&b, wingMissOf(wing.Met), rng)
	}
	if b.Cue.How == drill.Stopped {
		h.notePath(&b, drill.CuePath(r.CuePath), rng)
	}
	if h.Rails {
		b.Rails, b.PastString = drill.ObservedCount(r.Rails), drill.ObservedCount(r.PastString)
	}
	if h.Shots {
		b.Shot = shotOf(b, r, s, k)
	}
	if h.Rests {
		b.Rest = notedRests(r, s, k)
	}
	if h.Speeds {
		b.Speed = table.Mph(math.Round(float64(speed)*10) / 10)
	}
	return b
}

func cueEndOf(cue breaksim.BallEnd, k table.Kind) drill.CueEnd {
	switch cue.End {
	case breaksim.Dropped:
		return drill.CueEnd{How: drill.Scratched, Scratch: cue.Pocket}
	case breaksim.OffTable:
		return drill.CueEnd{How: drill.OffTable}
	}
	return drill.CueEnd{How: drill.Stopped, Place: roundPlace(cue.Place, k)}
}

// roundPlace is a place to the tenth of an inch. A ball that hangs in the jaws of a
// pocket, beyond the line of the noses, is written down on that line: the log ends
// there.
func roundPlace(p table.Place, k table.Kind) table.Place {
	p = k.NearestOnCloth(p)
	return table.Place{X: roundToTenth(p.X), Y: roundToTenth(p.Y)}
}

// wingMissOf is what the record sheet has a word for.
func wingMissOf(m breaksim.FirstMet) drill.WingMiss {
	switch m {
	case breaksim.MetSideRail:
		return drill.MissSideRail
	case breaksim.MetFootRail:
		return drill.MissFootRail
	case breaksim.MetBall:
		return drill.MissKissed
	case breaksim.MetJaws:
		return drill.MissJaws
	}
	return drill.MissUnknown
}

// notedRests are those of the balls a coach asks for: the head ball and row 2.
func notedRests(r breaksim.BreakResult, s drill.Setup, k table.Kind) []drill.RestingBall {
	var list []drill.RestingBall
	for _, slot := range []rack.Slot{rack.HeadSlot, "2L", "2R"} {
		if b, there := r.BallInSlot(slot); there && b.End == breaksim.Stopped && slot != s.Wing {
			list = append(list, drill.RestingBall{Ball: b.Ball, Place: roundPlace(b.Place, k)})
		}
	}
	return list
}
