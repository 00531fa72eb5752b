package drill

import (
	"time"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Break is what was seen of one break. What was not observed stays empty: an
// empty word, a nil count, a zero time or speed.
type Break struct {
	// Number counts the breaks of a set from 1.
	Number int
	At     time.Time
	// Speed measured, in mph.
	Speed    table.Mph
	Pocketed []Pocketed
	Cue      CueEnd
	// Off lists the object balls that left the table.
	Off      []rack.Ball
	WingMiss WingMiss
	CuePath  CuePath
	// Rest says where balls stopped.
	Rest []RestingBall
	// Rails counts the object balls that met a rail, PastString those that
	// crossed the head string.
	Rails, PastString *int
	Shot              Shot
	RanOut            RanOut
	// Racked says how the balls stood before the break.
	Racked Racked
	Note   string
}

// Pocketed is a ball and the pocket it dropped into.
type Pocketed struct {
	Ball   rack.Ball
	Pocket table.Pocket
}

// RestingBall is a ball and where it stopped.
type RestingBall struct {
	Ball  rack.Ball
	Place table.Place
}

// CueEnd says how the cue ball ended: it stopped at Place, scratched in
// Scratch, or left the table. Exactly one of them; the zero CueEnd is not
// valid, since where the cue ball went is always recorded.
type CueEnd struct {
	How     CueOutcome
	Place   table.Place  // when it stopped
	Scratch table.Pocket // when it scratched
}

// CueOutcome names the three ends.
type CueOutcome string

// The ends of a cue ball.
const (
	Stopped   CueOutcome = "stopped"
	Scratched CueOutcome = "scratch"
	OffTable  CueOutcome = "off-table"
)

// WingMiss says what the wing ball met first when it stayed up, or that nobody
// watched it.
type WingMiss string

// What a wing ball that stayed up can meet first.
const (
	MissSideRail WingMiss = "side-rail"
	MissFootRail WingMiss = "foot-rail"
	MissKissed   WingMiss = "kissed"
	MissJaws     WingMiss = "jaws"
	MissUnknown  WingMiss = "unknown"
	// NotWatched is noted of a break of a drill that never minds the wing ball,
	// whether it dropped or not: which balls dropped is then only known as far as
	// somebody looked, and is in no rate.
	NotWatched WingMiss = "not-watched"
)

// WingMisses lists what a form offers: all but [NotWatched].
func WingMisses() []WingMiss {
	return []WingMiss{MissSideRail, MissFootRail, MissKissed, MissJaws, MissUnknown}
}

// CuePath says how the cue ball came to rest.
type CuePath string

// The ways of a cue ball.
const (
	PathBack     CuePath = "back"      // off the rack and stopped on the way back
	PathHeadRail CuePath = "head-rail" // back to the head rail and down again
	PathForward  CuePath = "forward"   // on into the rack end
	PathHit      CuePath = "hit"       // another ball moved it
	PathUnknown  CuePath = "unknown"
)

// CuePaths lists them as a form offers them.
func CuePaths() []CuePath {
	return []CuePath{PathBack, PathHeadRail, PathForward, PathHit, PathUnknown}
}

// Shot reports whether there is a shot on the lowest ball.
type Shot string

// The answers.
const (
	ShotOpen Shot = "open"
	ShotHard Shot = "hard"
	ShotNone Shot = "none"
)

// Shots lists them as a form offers them.
func Shots() []Shot { return []Shot{ShotOpen, ShotHard, ShotNone} }

// RanOut reports whether the rack was run out from the break.
type RanOut string

// The answers.
const (
	RanOutYes RanOut = "yes"
	RanOutNo  RanOut = "no"
)

// Racked says how the balls stood in the rack before the break: three values,
// with "" for "nobody looked".
type Racked string

// The answers.
const (
	RackedTight Racked = "tight" // every ball touches its neighbours
	RackedLoose Racked = "loose" // a gap can be seen
)

// ObservedCount makes an observed count.
func ObservedCount(n int) *int { return &n }

// PocketOf gives the pocket a ball dropped into, and false if it stayed up.
func (b Break) PocketOf(ball rack.Ball) (table.Pocket, bool) {
	for _, p := range b.Pocketed {
		if p.Ball == ball {
			return p.Pocket, true
		}
	}
	return "", false
}

// IsWatched reports whether the balls of the rack were watched, so that one of
// which nothing was noted stayed up. Where it does not hold, the break says
// something of the cue ball and of balls that left the table only.
func (b Break) IsWatched() bool { return b.WingMiss != NotWatched }

// WingMade reports whether the wing ball of the setup dropped in its own corner,
// of a break that was watched.
func (b Break) WingMade(s Setup) bool {
	pocket, dropped := b.PocketOf(s.WingBall())
	return dropped && pocket == s.WingPocket() && b.IsWatched()
}

// IsDry says that no object ball was pocketed, of a break that was watched.
func (b Break) IsDry() bool { return len(b.Pocketed) == 0 && b.IsWatched() }

// IsWeak says that the break was short of the rules': nothing pocketed and fewer
// than four object balls to a rail (WPA rules of play 2016, 2.3). known is
// false when nothing dropped and the rails were not counted, or nobody watched.
func (b Break) IsWeak() (weak, known bool) {
	if !b.IsWatched() {
		return false, false
	}
	if !b.IsDry() {
		return false, true
	}
	if b.Rails == nil {
		return false, false
	}
	return *b.Rails < 4, true
}

// HasBallsOff reports whether any ball, the cue ball too, left the table.
func (b Break) HasBallsOff() bool { return b.Cue.How == OffTable || len(b.Off) > 0 }

// InWindow reports whether the cue ball stopped in the window.
func (b Break) InWindow(w table.Window) bool {
	return b.Cue.How == Stopped && w.Contains(b.Cue.Place)
}

// Mirror gives the break as it would have been from the other side.
func (b Break) Mirror() Break {
	m := b
	m.Pocketed = nil
	for _, p := range b.Pocketed {
		m.Pocketed = append(m.Pocketed, Pocketed{p.Ball, p.Pocket.Mirror()})
	}
	m.Rest = nil
	for _, r := range b.Rest {
		m.Rest = append(m.Rest, RestingBall{r.Ball, r.Place.Mirror()})
	}
	switch b.Cue.How {
	case Stopped:
		m.Cue.Place = b.Cue.Place.Mirror()
	case Scratched:
		m.Cue.Scratch = b.Cue.Scratch.Mirror()
	}
	return m
}
