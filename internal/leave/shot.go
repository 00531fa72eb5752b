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

// cueToBall is the line from where the cue ball is played to a ball.
type cueToBall struct {
	cue, on table.Place
	ahead   table.Vector // unit vector from cue to ball
	apart   float64
	// steepest is how far the object ball's direction may turn from ahead.
	steepest float64
}

func newCueToBall(cue, on table.Place) cueToBall {
	apart := max(lengthOf(cue.VectorTo(on)), diameter*(1+1e-9))
	return cueToBall{cue: cue, on: on, ahead: cue.VectorTo(on).UnitVector(), apart: apart,
		steepest: steepestCut - arcsine(diameter*math.Sin(steepestCut)/apart)}
}

// lane is a shot laid out straight: for a bank the pocket is its image, for a
// kick the cue ball is.
type lane struct {
	cueToBall
	kind     table.Kind
	mouth    table.Mouth
	line     table.Vector // from the ball toward the mouth's middle
	open     span         // the directions that drop it, from that line
	way      Way
	rail     table.Rail
	onWay    []blocker // may stand in the object ball's way
	onCue    []blocker // may stand in the cue ball's
	atRail   bool      // the ghost ball may be inside a cushion
	accuracy Accuracy
}

// aimed is what comes of a lane.
type aimed struct {
	possible bool    // with no other ball on the table
	window   span    // of the cue ball's directions, from the line cue to ball
	middle   float64 // the direction that is aimed at: of what balls leave of the window, or of all of it
	chance   float64
	blocked  uint32 // bit b for ball b
}

// aim finds the window of a lane and the chance within it.
func (l *lane) aim() (a aimed) {
	turn := angleTo(l.ahead, l.line)
	left := spansOf(l.open.and(span{-l.steepest - turn, l.steepest - turn}))
	if left.n == 0 {
		return a
	}
	if l.atRail {
		l.removeGhostOff(&left)
	}
	possible := cueSpans(left, turn, l.apart)
	widest := possible.widest()
	a.chance = l.chance(widest)
	if l.way != Direct {
		if a.chance < faintest {
			return aimed{} // not even on an empty table
		}
		if l.removeGaps(&left, &possible) {
			possible = cueSpans(left, turn, l.apart).intersect(possible)
		}
	}
	if possible.n == 0 {
		return aimed{}
	}
	a.possible = true
	l.narrowByBalls(&a, &left, &possible, turn)
	if a.window != widest {
		a.chance = l.chance(a.window)
	}
	return a
}

// narrowByBalls narrows the window by the other balls.
func (l *lane) narrowByBalls(a *aimed, object, possible *spans, turn float64) {
	free := *possible
	if len(l.onWay) > 0 {
		quick := narrowOf(object)
		for _, b := range l.onWay {
			if !quick.misses(l.on, l.line, b.at) && removeOnWay(object, l.on, l.line, b) {
				a.blocked |= 1 << b.ball
			}
		}
		if object.n == 0 && l.way != Direct {
			return // closed banks and kicks are not worth a word
		}
		if a.blocked != 0 {
			free = cueSpans(*object, turn, l.apart).intersect(*possible)
		}
	}
	quick := narrowOf(&free)
	for _, b := range l.onCue {
		if !quick.misses(l.cue, l.ahead, b.at) && removeBefore(&free, l.cue, l.ahead, b, l.on) {
			a.blocked |= 1 << b.ball
		}
	}
	a.window = free.widest()
	a.middle = a.window.middle()
	if a.window.width() == 0 {
		a.middle = possible.widest().middle()
	}
}

// objectWay is the object ball's direction, as a unit vector, when the cue ball is sent
// off in one.
func (l *lane) objectWay(cue float64) table.Vector {
	return l.ahead.TurnedBy(objectTurn(cue, l.apart))
}

// chance of a window. For a bank or kick the rebound's error is added: at the
// mouth or the ghost ball it is off by the way behind the rail times its angle.
func (l *lane) chance(w span) float64 {
	sd := table.Degrees(l.accuracy).Radians()
	if w.width() == 0 {
		return 0
	}
	switch l.way {
	case Bank:
		object := objectTurn(w.lo, l.apart) - objectTurn(w.hi, l.apart)
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

// nearRail reports whether a ball lies so near to a cushion that the ghost ball may
// be inside it.
func nearRail(k table.Kind, on table.Place) bool {
	for _, r := range table.Rails() {
		if at, out := k.TurningLine(r); on.VectorTo(at).Dot(out) < diameter {
			return true
		}
	}
	return false
}

// removeGhostOff takes out the directions for which the cue ball would have to be
// inside a cushion at contact.
func (l *lane) removeGhostOff(s *spans) {
	for _, r := range table.Rails() {
		at, out := l.kind.TurningLine(r)
		near := l.on.VectorTo(at).Dot(out)
		if near >= diameter {
			continue
		}
		half := math.Acos(max(near, 0) / diameter)
		away := l.line.AngleTo(out.ScaledBy(-1))
		s.remove(span{away - half, away + half})
	}
}

// removeGaps takes out the directions in which the ball that is to turn at the
// lane's rail would meet it where it has no nose: in a pocket's mouth, or beyond
// the last one. It reports whether there were any.
func (l *lane) removeGaps(object, cue *spans) (taken bool) {
	s, from, line := object, l.on, l.line
	if l.way == Kick {
		s, from, line = cue, l.cue, l.ahead
	}
	quick := narrowOf(s)
	at, out := l.kind.TurningLine(l.rail)
	for _, p := range l.rail.OpenPockets() {
		first, second := l.kind.JawTips(p)
		toFirst := from.VectorTo(first.MovedBy(out.ScaledBy(first.VectorTo(at).Dot(out))))
		toSecond := from.VectorTo(second.MovedBy(out.ScaledBy(second.VectorTo(at).Dot(out))))
		var gap span
		if p.IsSide() {
			hand := math.Copysign(1, line.Cross(toFirst))
			if quick.isPassedBy(line, toFirst, hand) && quick.isPassedBy(line, toSecond, hand) {
				continue
			}
			one, other := line.AngleTo(toFirst), line.AngleTo(toSecond)
			gap = span{min(one, other), max(one, other)}
		} else {
			tip := toFirst // a corner's first tip is on the end rail
			if out.Y == 0 {
				tip = toSecond
			}
			hand := math.Copysign(1, tip.Cross(l.kind.PocketMouth(p).In.WithoutPartAlong(out)))
			if quick.isPassedBy(line, tip, hand) {
				continue
			}
			gap = beyondTip(line, tip, hand)
		}
		taken = s.remove(gap) || taken
	}
	return taken
}

// beyondTip returns the directions from a corner's tip on a rail to the end of all
// directions that meet the rail's line on that hand.
func beyondTip(line, tip table.Vector, hand float64) span {
	one := line.AngleTo(tip)
	other := one + hand*math.Pi
	return span{min(one, other), max(one, other)}
}
