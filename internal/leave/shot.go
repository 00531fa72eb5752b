package leave

import (
	"math"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Way says how a ball goes to a pocket.
type Way string

// The ways.
const (
	Direct Way = "direct"
	Bank   Way = "bank" // the object ball by one rail
	Kick   Way = "kick" // the cue ball by one rail
)

// Shot is one way to pocket a ball.
type Shot struct {
	Ball   rack.Ball
	Pocket table.Pocket
	Way    Way
	// Rail is where the bank or kick turns; empty for a direct shot.
	Rail table.Rail
	// Cue is where the cue ball is played from, Ghost where it is when it meets
	// the ball; Target is where the aimed ball crosses the pocket's mouth (for a
	// bank: of its image, see Turn).
	Cue, Ghost, Target table.Place
	// Turn is where a bank's ball or a kick's cue ball turns at the rail.
	Turn table.Place
	// Cut is the angle between the cue ball's line and the object ball's.
	Cut table.Degrees
	// ToBall and ToPocket are the ways of the cue ball to contact and of the
	// object ball to the mouth.
	ToBall, ToPocket table.Inches
	// Window is the width of the directions of the cue ball that make the shot,
	// 0 when it is blocked.
	Window table.Degrees
	Chance float64
	// BlockedBy lists the balls that take something of the window, or all of it,
	// by number.
	BlockedBy []rack.Ball
}

// steepestCut is the thinnest shot that is counted: beyond it the cue ball keeps
// nearly all of its speed (a thirtieth of the energy passes on; common practice).
const steepestCut = 80 * math.Pi / 180

// reboundError is the standard deviation of the direction in which a ball leaves
// a rail, about that of a looking-glass: speed, spin and cloth turn it (common
// practice, no source).
const reboundError table.Degrees = 3

// lane is a shot laid out straight: for a bank the pocket is its image, for a
// kick the cue ball is.
type lane struct {
	kind     table.Kind
	cue, on  table.Place
	mouth    table.Mouth
	line     table.Vector // from the ball toward the mouth's middle
	open     span         // the directions that drop it, from that line
	way      Way
	rail     table.Rail
	onWay    []blocker // may stand in the object ball's way
	onCue    []blocker // may stand in the cue ball's
	accuracy Accuracy
}

// aimed is what comes of a lane.
type aimed struct {
	possible bool         // with no other ball on the table
	window   span         // of the cue ball's directions, from the line cue to ball
	object   table.Vector // unit direction of the object ball when so aimed
	line     table.Vector // unit vector from cue to ball
	chance   float64
	blocked  uint32 // bit b for ball b
}

// aim finds the window of a lane and the chance within it.
func (l *lane) aim() (a aimed) {
	line := l.line
	a.line = l.cue.VectorTo(l.on).UnitVector()
	apart := max(float64(l.cue.Distance(l.on)), diameter*(1+1e-9))
	turn := angleTo(a.line, line)
	steepest := steepestCut - math.Asin(diameter*math.Sin(steepestCut)/apart)
	left := spansOf(l.open.and(span{-steepest - turn, steepest - turn}))
	if left.n == 0 {
		return a
	}
	l.removeGhostOff(&left, line)
	possible := cueSpans(left, turn, apart)
	if l.way != Direct {
		if l.chance(possible.widest(), apart) < faintest {
			return a // not even on an empty table
		}
		l.removeGaps(&left, &possible, line, a.line)
		possible = cueSpans(left, turn, apart).intersect(possible)
	}
	if possible.n == 0 {
		return a
	}
	a.possible = true
	l.among(&a, left, possible, turn, apart)
	return a
}

// among narrows the window by the other balls.
func (l *lane) among(a *aimed, object, possible spans, turn, apart float64) {
	free := possible
	if len(l.onWay) > 0 {
		line, quick := a.line.TurnedBy(turn), narrowOf(&object)
		for _, b := range l.onWay {
			if !quick.misses(l.on, line, b.at) && removeOnWay(&object, l.on, line, b) {
				a.blocked |= 1 << b.ball
			}
		}
		if a.blocked != 0 {
			free = cueSpans(object, turn, apart).intersect(possible)
		}
	}
	quick := narrowOf(&free)
	for _, b := range l.onCue {
		if !quick.misses(l.cue, a.line, b.at) && removeBefore(&free, l.cue, a.line, b, l.on) {
			a.blocked |= 1 << b.ball
		}
	}
	a.window = free.widest()
	aim := a.window
	if aim.width() == 0 {
		aim = possible.widest()
	}
	a.object = a.line.TurnedBy(objectTurn(aim.middle(), apart))
	a.chance = l.chance(a.window, apart)
}

// chance of a window. For a bank or kick the rebound's error is added: at the
// mouth or the ghost ball it is off by the way behind the rail times its angle.
func (l *lane) chance(w span, apart float64) float64 {
	sd := table.Degrees(l.accuracy).Radians()
	if w.width() == 0 {
		return 0
	}
	switch l.way {
	case Bank:
		object := objectTurn(w.lo, apart) - objectTurn(w.hi, apart)
		share := l.behindRail(l.on, l.mouth.Middle) * reboundError.Radians() / object
		return shareWithin(1, math.Hypot(sd/w.width(), share))
	case Kick:
		return shareWithin(w.width(), math.Hypot(sd, l.behindRail(l.cue, l.on)*reboundError.Radians()))
	}
	return shareWithin(w.width(), sd)
}

// behindRail is the share of the way from one place to another, on both sides of
// the lane's rail, that comes after the rail.
func (l *lane) behindRail(from, to table.Place) float64 {
	at, out := l.kind.TurningLine(l.rail)
	before, after := math.Abs(from.VectorTo(at).Dot(out)), math.Abs(at.VectorTo(to).Dot(out))
	return after / (before + after)
}

// cueTurn is the direction of the cue ball, as an angle from the line to the
// object ball, that sends that ball off at an angle from the same line. The two
// turn against one another.
func cueTurn(object, apart float64) float64 {
	sin, cos := math.Sincos(object)
	return -arctangent(diameter*sin, max(apart-diameter*cos, 1e-300))
}

// objectTurn is the inverse of cueTurn: the sine of the cut is apart·sin(turn) by
// a ball's width, the cut being the angle between both directions.
func objectTurn(cue, apart float64) float64 {
	cut := arcsine(min(max(apart*math.Sin(cue)/diameter, -1), 1))
	return cue - cut
}

// cueSpans turns spans of the object ball's directions, counted from its own line,
// into those of the cue ball.
func cueSpans(object spans, turn, apart float64) (cue spans) {
	for i := object.n - 1; i >= 0; i-- {
		p := object.piece[i]
		cue.add(span{cueTurn(p.hi+turn, apart), cueTurn(p.lo+turn, apart)})
	}
	return cue
}

// removeGhostOff takes out the directions for which the cue ball would have to be
// inside a cushion at contact.
func (l *lane) removeGhostOff(s *spans, line table.Vector) {
	for _, r := range table.Rails() {
		at, out := l.kind.TurningLine(r)
		near := l.on.VectorTo(at).Dot(out)
		if near >= diameter {
			continue
		}
		half := math.Acos(max(near, 0) / diameter)
		away := line.AngleTo(out.ScaledBy(-1))
		s.remove(span{away - half, away + half})
	}
}

// removeGaps takes out the directions in which the ball that is to turn at the
// lane's rail would meet it where it has no nose: in a pocket's mouth, or beyond
// the last one.
func (l *lane) removeGaps(object, cue *spans, objectLine, cueLine table.Vector) {
	s, from, line := object, l.on, objectLine
	if l.way == Kick {
		s, from, line = cue, l.cue, cueLine
	}
	at, out := l.kind.TurningLine(l.rail)
	for _, p := range l.rail.OpenPockets() {
		first, second := l.kind.JawTips(p)
		toFirst := from.VectorTo(first.MovedBy(out.ScaledBy(first.VectorTo(at).Dot(out))))
		toSecond := from.VectorTo(second.MovedBy(out.ScaledBy(second.VectorTo(at).Dot(out))))
		one, other := line.AngleTo(toFirst), line.AngleTo(toSecond)
		if !p.IsSide() {
			one, other = beyondTip(l.kind, p, out, line, toFirst, toSecond)
		}
		s.remove(span{min(one, other), max(one, other)})
	}
}

// beyondTip gives the directions from a corner's tip on a rail to the end of all
// directions that meet the rail's line on that side.
func beyondTip(k table.Kind, p table.Pocket, out, line, toFirst, toSecond table.Vector) (one, other float64) {
	tip := toFirst // a corner's first tip is on the end rail
	if out.Y == 0 {
		tip = toSecond
	}
	toward := k.PocketMouth(p).In.WithoutPartAlong(out)
	one = line.AngleTo(tip)
	return one, one + math.Copysign(math.Pi, tip.Cross(toward))
}
