package whatif

import (
	"breakwright/internal/breaksim"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// SimulatedBreak is what is kept of one simulated break.
type SimulatedBreak struct {
	Wing, Cue BallFate
	// WingMade: the wing ball in its own corner; InWindow: the cue ball where it
	// should be.
	WingMade, InWindow bool
	// Low are the followed balls, in the order of Question.Low.
	Low []BallFate
	// Down counts the object balls pocketed, Off all balls that left the table.
	Down, Off int
	Path      breaksim.CuePath
	// centre is the middle of the table's length, which parts its two ends.
	centre table.Inches
}

// BallFate is what became of one ball.
type BallFate struct {
	End    breaksim.EndKind
	Place  table.Place  // where it stopped
	Pocket table.Pocket // where it dropped
	Met    breaksim.FirstMet
}

// recordBreak takes from a result what the question asks for.
func recordBreak(q Question, r breaksim.BreakResult) SimulatedBreak {
	wing, _ := r.BallInSlot(q.Setup.Wing)
	b := SimulatedBreak{
		Wing: fateOf(wing), Cue: fateOf(r.CueBallEnd()), Down: len(r.Pocketed), Off: len(r.Off),
		Path: r.CuePath, centre: q.Kind.CentreSpot().Y,
	}
	if b.Cue.End == breaksim.OffTable {
		b.Off++
	}
	b.WingMade = b.Wing.End == breaksim.Dropped && b.Wing.Pocket == q.Setup.WingPocket()
	b.InWindow = b.Cue.End == breaksim.Stopped && q.Window.Contains(b.Cue.Place)
	for _, ball := range q.LowBalls() {
		b.Low = append(b.Low, fateOf(ballEndOf(r, ball)))
	}
	return b
}

func fateOf(e breaksim.BallEnd) BallFate { return BallFate{e.End, e.Place, e.Pocket, e.Met} }

func ballEndOf(r breaksim.BreakResult, ball rack.Ball) breaksim.BallEnd {
	for _, b := range r.Balls[1:] {
		if b.Ball == ball {
			return b
		}
	}
	return breaksim.BallEnd{}
}

// BreakEvent is something that may be true of a break.
type BreakEvent func(SimulatedBreak) bool

// WingMade is the wing ball in its own corner.
func WingMade(b SimulatedBreak) bool { return b.WingMade }

// WingElsewhere is the wing ball in any other pocket.
func WingElsewhere(b SimulatedBreak) bool { return b.Wing.End == breaksim.Dropped && !b.WingMade }

// WingStayed is the wing ball still on the table after it met that first. With
// WingMade, WingElsewhere and WingOff these part all breaks.
func WingStayed(first breaksim.FirstMet) BreakEvent {
	return func(b SimulatedBreak) bool { return b.Wing.End == breaksim.Stopped && b.Wing.Met == first }
}

// WingOff is the wing ball off the table.
func WingOff(b SimulatedBreak) bool { return b.Wing.End == breaksim.OffTable }

// InWindow is the cue ball stopped in its window.
func InWindow(b SimulatedBreak) bool { return b.InWindow }

// CueHeadEnd is the cue ball stopped outside the window in the head half of the
// table, CueFootEnd in the foot half. With InWindow, Scratched and CueOff these
// part all breaks.
func CueHeadEnd(b SimulatedBreak) bool {
	return b.Cue.End == breaksim.Stopped && !b.InWindow && b.Cue.Place.Y <= b.centre
}

// CueFootEnd: see CueHeadEnd.
func CueFootEnd(b SimulatedBreak) bool {
	return b.Cue.End == breaksim.Stopped && !b.InWindow && b.Cue.Place.Y > b.centre
}

// Scratched is the cue ball in any pocket, ScratchedIn in that one.
func Scratched(b SimulatedBreak) bool { return b.Cue.End == breaksim.Dropped }

// ScratchedIn: see Scratched.
func ScratchedIn(p table.Pocket) BreakEvent {
	return func(b SimulatedBreak) bool { return Scratched(b) && b.Cue.Pocket == p }
}

// CueOff is the cue ball off the table, AnyOff any ball.
func CueOff(b SimulatedBreak) bool { return b.Cue.End == breaksim.OffTable }

// AnyOff: see CueOff.
func AnyOff(b SimulatedBreak) bool { return b.Off > 0 }

// DryBreak is a break without an object ball pocketed.
func DryBreak(b SimulatedBreak) bool { return b.Down == 0 }

// LowPocketed is the i-th followed ball pocketed, LowHeadEnd stopped in the head
// half of the table, LowFootEnd in the foot half.
func LowPocketed(i int) BreakEvent {
	return func(b SimulatedBreak) bool { return b.Low[i].End == breaksim.Dropped }
}

// LowHeadEnd: see LowPocketed.
func LowHeadEnd(i int) BreakEvent {
	return func(b SimulatedBreak) bool { return b.Low[i].End == breaksim.Stopped && b.Low[i].Place.Y <= b.centre }
}

// LowFootEnd: see LowPocketed.
func LowFootEnd(i int) BreakEvent {
	return func(b SimulatedBreak) bool { return b.Low[i].End == breaksim.Stopped && b.Low[i].Place.Y > b.centre }
}
