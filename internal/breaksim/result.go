package breaksim

import (
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// BreakResult is everything that could be written down about a break.
type BreakResult struct {
	Game rack.Game
	// Balls holds the cue ball first, then the object balls in slot order.
	Balls []BallEnd
	// Pocketed lists the object balls that dropped, in the order they did; Off
	// those that left the table.
	Pocketed []Pocketed
	Off      []rack.Ball
	// Rails counts the object balls that met a rail's nose, PastString those
	// whose base crossed the head string.
	Rails, PastString int
	// Hit is the cue ball's first touch of a ball; nil when it touched none.
	Hit     *FirstHit
	CuePath CuePath
	// Seconds from the stroke to the last ball's rest, Events how many events
	// were computed.
	Seconds float64
	Events  int
	// Unsettled says that the computation was broken off at one of its limits:
	// the places are then where balls were, not where they stopped. Lost counts
	// balls that got where no ball can be and were taken off the table.
	Unsettled bool
	Lost      int
}

// Pocketed is a ball, its pocket and when it dropped, in seconds.
type Pocketed struct {
	Ball   rack.Ball
	Pocket table.Pocket
	At     float64
}

// FirstHit is the cue ball's first touch.
type FirstHit struct {
	Ball rack.Ball
	Slot rack.Slot
	// Offset is how far right of full it was as the breaker sees it, Fullness
	// the fraction of the ball covered: 1 full, 0.5 half.
	Offset   table.Inches
	Fullness float64
	// Speed of the cue ball on arrival and Height of its base above the cloth;
	// Roll is its forward spin by that of a ball that rolls: 1 rolling, 0 a
	// stun, negative draw.
	Speed  table.Mph
	Height table.Inches
	Roll   float64
}

// EndKind says how a ball ended.
type EndKind string

// The ends of a ball. A cue ball that dropped is a scratch.
const (
	Stopped  EndKind = "stopped"
	Dropped  EndKind = "dropped"
	OffTable EndKind = "off-table"
)

// FirstMet says what a ball met first after it had left its place in the rack by
// half a ball; the words for a wing ball that stayed up are the break log's.
type FirstMet string

// What a ball can meet first. Empty means nothing.
const (
	MetSideRail FirstMet = "side-rail"
	MetFootRail FirstMet = "foot-rail"
	MetHeadRail FirstMet = "head-rail"
	MetBall     FirstMet = "kissed"
	MetJaws     FirstMet = "jaws"
	MetPocket   FirstMet = "pocket" // dropped without meeting anything
)

// CuePath says how the cue ball came to rest, in the break log's words.
type CuePath string

// The ways of a cue ball: another ball hit it; else whichever it reached first,
// the head rail or a ball's width past the head ball's place; else back.
const (
	PathBack     CuePath = "back"
	PathHeadRail CuePath = "head-rail"
	PathForward  CuePath = "forward"
	PathHit      CuePath = "hit"
)

// BallEnd is what became of one ball.
type BallEnd struct {
	// Ball is 0 and Slot empty for the cue ball.
	Ball rack.Ball
	Slot rack.Slot
	End  EndKind
	// Place where it stopped, or was last when it dropped or left the table.
	Place  table.Place
	Pocket table.Pocket // when it dropped
	Met    FirstMet
	// Rails counts the noses it met, PastString says that its base was across
	// the head string (always false for the cue ball, which starts there).
	Rails      int
	PastString bool
	// LeftAt is its speed when it first parted from the balls around it (for the
	// cue ball: from its first touch), Heading its direction then: degrees from
	// straight down the table, positive to the right.
	LeftAt  table.Mph
	Heading Degrees
	// Path is filled when the Input asked for it.
	Path BallPath
}

// CueBallEnd returns what became of the cue ball.
func (r BreakResult) CueBallEnd() BallEnd { return r.Balls[cue] }

// BallInSlot returns what became of the ball of a slot, and false if there was none.
func (r BreakResult) BallInSlot(slot rack.Slot) (BallEnd, bool) {
	for _, b := range r.Balls[1:] {
		if b.Slot == slot {
			return b, true
		}
	}
	return BallEnd{}, false
}

// IsDry reports whether no object ball was pocketed, IsWeak whether the break also sent
// fewer than four object balls to a rail (WPA rules of play 2016, 2.3).
func (r BreakResult) IsDry() bool { return len(r.Pocketed) == 0 }

// IsWeak: see IsDry.
func (r BreakResult) IsWeak() bool { return r.IsDry() && r.Rails < 4 }

// Mirror returns the result of the mirrored break. Mirroring twice is the
// identity.
func (r BreakResult) Mirror() BreakResult {
	m := r
	m.Balls = []BallEnd{r.Balls[cue].mirrorBallEnd()}
	for _, slot := range r.Game.Slots() {
		b, _ := r.BallInSlot(slot.Mirror())
		m.Balls = append(m.Balls, b.mirrorBallEnd())
	}
	m.Pocketed = nil
	for _, p := range r.Pocketed {
		m.Pocketed = append(m.Pocketed, Pocketed{p.Ball, p.Pocket.Mirror(), p.At})
	}
	if r.Hit != nil {
		h := *r.Hit
		h.Slot, h.Offset = h.Slot.Mirror(), table.FlipSign(h.Offset)
		m.Hit = &h
	}
	return m
}

func (b BallEnd) mirrorBallEnd() BallEnd {
	b.Slot = b.Slot.Mirror()
	b.Place = b.Place.Mirror()
	b.Heading = table.FlipSign(b.Heading)
	if b.Pocket != "" {
		b.Pocket = b.Pocket.Mirror()
	}
	b.Path = b.Path.mirrorPath()
	return b
}
