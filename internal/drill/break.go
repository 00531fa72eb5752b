package drill

import (
	"fmt"
	"slices"
	"strings"
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

// Shot is whether there is a shot on the lowest ball.
type Shot string

// The answers.
const (
	ShotOpen Shot = "open"
	ShotHard Shot = "hard"
	ShotNone Shot = "none"
)

// Shots lists them as a form offers them.
func Shots() []Shot { return []Shot{ShotOpen, ShotHard, ShotNone} }

// RanOut is whether the rack was run out from the break.
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

// PocketOf returns the pocket a ball dropped into, and false if it stayed up.
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

// WingBall returns the ball in the wing slot being played.
func (s Setup) WingBall() rack.Ball {
	b, _ := s.Order.BallAt(s.Game, s.Wing)
	return b
}

// WingPocket is the foot corner the wing ball goes to: the one on its own side.
func (s Setup) WingPocket() table.Pocket {
	if s.Wing == s.Game.WingSlot(table.Right) {
		return table.FootRight
	}
	return table.FootLeft
}

// WingMade reports whether the wing ball of the setup dropped in its own corner,
// of a break that was watched.
func (b Break) WingMade(s Setup) bool {
	pocket, dropped := b.PocketOf(s.WingBall())
	return dropped && pocket == s.WingPocket() && b.IsWatched()
}

// IsDry reports whether no object ball was pocketed, of a break that was watched.
func (b Break) IsDry() bool { return len(b.Pocketed) == 0 && b.IsWatched() }

// IsWeak reports whether the break was short of the rules': nothing pocketed and fewer
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

// Mirror returns the break as it would have been from the other side.
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

// MaxNote is how many letters a note may have.
const MaxNote = 2000

// FastestMeasured is the fastest break that is believed when measured: faster than
// any published figure (35 mph is called extreme; Alciatore, typical speeds).
const FastestMeasured table.Mph = 40

// Check says what in the break cannot have happened under this setup on this
// kind of table. Field names are the break log's columns.
func (b Break) Check(s Setup, k table.Kind) error {
	var p Problems
	if b.Number < 1 {
		p.Add("break", "breaks are numbered from 1")
	}
	if b.Speed != 0 && !(b.Speed > 0 && b.Speed <= FastestMeasured) {
		p.Add("speed", fmt.Sprintf("a speed of %s mph is not believed", b.Speed))
	}
	wing, racked := s.WingBall(), s.Order.Balls()
	b.checkBalls(racked, &p)
	b.checkPlaces(k, &p)
	b.checkWords(wing, &p)
	b.checkCounts(s.Game.BallCount(), &p)
	if says := checkLength(b.Note, MaxNote); says != "" {
		p.Add("note", says)
	}
	return p.Err()
}

func (b Break) checkBalls(racked []rack.Ball, p *Problems) {
	var gone ballFields
	for _, d := range b.Pocketed {
		recordBallOnce(racked, &gone, d.Ball, "pocketed", p)
		if _, err := table.ParsePocket(string(d.Pocket)); err != nil {
			p.Add("pocketed", err.Error())
		}
	}
	for _, ball := range b.Off {
		recordBallOnce(racked, &gone, ball, "off", p)
	}
	for _, r := range b.Rest {
		recordBallOnce(racked, &gone, r.Ball, "rest", p)
	}
}

// ballFields has for each ball the field that says where it went, by number; empty
// while none does.
type ballFields [rack.HighestBall + 1]string

// fieldWords tells what a field says of a ball.
var fieldWords = map[string]string{"pocketed": "pocketed", "off": "off the table", "rest": "at rest on the cloth"}

// recordBallOnce notes where a ball went and objects when it went twice.
func recordBallOnce(racked []rack.Ball, gone *ballFields, ball rack.Ball, field string, p *Problems) {
	if !slices.Contains(racked, ball) {
		p.Add(field, fmt.Sprintf("the %s is not in this rack", ball))
		return
	}
	switch before := gone[ball]; before {
	case "":
	case field:
		p.Add(field, fmt.Sprintf("the %s is there twice", ball))
	default:
		p.Add(field, fmt.Sprintf("the %s cannot be %s and %s", ball, fieldWords[before], fieldWords[field]))
	}
	gone[ball] = field
}

func (b Break) checkPlaces(k table.Kind, p *Problems) {
	for _, r := range b.Rest {
		if !k.OnCloth(r.Place) {
			p.Add("rest", fmt.Sprintf("the %s cannot stop at %s: that is off the cloth", r.Ball, r.Place))
		}
	}
	switch b.Cue.How {
	case Stopped:
		if !k.OnCloth(b.Cue.Place) {
			p.Add("cue", fmt.Sprintf("the cue ball cannot stop at %s: that is off the cloth", b.Cue.Place))
		}
	case Scratched:
		if _, err := table.ParsePocket(string(b.Cue.Scratch)); err != nil {
			p.Add("cue", "say which pocket the cue ball scratched in")
		}
	case OffTable:
	default:
		p.Add("cue", "say where the cue ball stopped, or that it scratched, or that it left the table")
	}
}

func (b Break) checkWords(wing rack.Ball, p *Problems) {
	if b.WingMiss != "" {
		if accepted := append(WingMisses(), NotWatched); !slices.Contains(accepted, b.WingMiss) {
			p.Add("wing_miss", acceptedWords(string(b.WingMiss), accepted))
		} else if _, dropped := b.PocketOf(wing); dropped && b.IsWatched() {
			p.Add("wing_miss", fmt.Sprintf("the wing ball, the %s, dropped: it did not miss", wing))
		}
	}
	if b.CuePath != "" && !slices.Contains(CuePaths(), b.CuePath) {
		p.Add("cue_path", acceptedWords(string(b.CuePath), CuePaths()))
	}
	if b.Shot != "" && !slices.Contains(Shots(), b.Shot) {
		p.Add("shot", acceptedWords(string(b.Shot), Shots()))
	}
	if b.RanOut != "" && b.RanOut != RanOutYes && b.RanOut != RanOutNo {
		p.Add("ran_out", acceptedWords(string(b.RanOut), []RanOut{RanOutYes, RanOutNo}))
	}
	if b.Racked != "" && b.Racked != RackedTight && b.Racked != RackedLoose {
		p.Add("racked", acceptedWords(string(b.Racked), []Racked{RackedTight, RackedLoose}))
	}
}

func (b Break) checkCounts(most int, p *Problems) {
	for _, c := range []struct {
		field string
		n     *int
	}{{"rails", b.Rails}, {"past_string", b.PastString}} {
		if c.n != nil && (*c.n < 0 || *c.n > most) {
			p.Add(c.field, fmt.Sprintf("%d balls: from 0 to %d, the balls of this rack", *c.n, most))
		}
	}
}

func acceptedWords[T ~string](got string, accepted []T) string {
	words := make([]string, len(accepted))
	for i, a := range accepted {
		words[i] = string(a)
	}
	return fmt.Sprintf("%q is not one of %s", got, strings.Join(words, ", "))
}
