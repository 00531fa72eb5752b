package leave

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Value of a leave to the breaker, 0 to 1: the chance of the shot times the
// position it gives on the next ball.
type Value struct {
	Shot float64
	// Position is the chance of a shot on the next ball after this one is made;
	// 1 when the next ball was not placed, so that Total is then the chance of
	// the shot alone.
	Position  float64
	NextKnown bool
}

// Total is the chance of both.
func (v Value) Total() float64 { return v.Shot * v.Position }

// EstimateValue returns the value of a leave. It is 0 when the breaker has lost the table:
// after a foul, or when there is no direct shot; and when nothing is known of the
// ball to be shot at, known is false.
func EstimateValue(l Leave, p Player) (v Value, known bool) {
	if l.Won {
		return Value{1, 1, true}, true
	}
	if l.Hand != InPlay {
		return Value{}, true
	}
	a := FindShots(l, p)
	if a.Shot == "" {
		return Value{}, false
	}
	best, any := a.Direct()
	if !any {
		return Value{}, true
	}
	v = Value{Shot: best.Chance, Position: 1}
	if next, placed := l.next(a.Ball); placed {
		v.Position, v.NextKnown = l.without(a.Ball).position(best, next, p.Accuracy), true
	}
	return v, true
}

// Direct returns the likeliest direct shot with any chance.
func (a FoundShots) Direct() (Shot, bool) {
	for _, s := range a.Shots {
		if s.Way == Direct && s.Chance > 0 {
			return s, true
		}
	}
	return Shot{}, false
}

// Told returns the shot that is drawn and told where there is one: the likeliest, but
// where the leave is open, which only a direct shot makes it, the likeliest of those.
func (a FoundShots) Shown() Shot {
	if direct, any := a.Direct(); any && a.Shot == drill.ShotOpen {
		return direct
	}
	return a.Shots[0]
}

// next returns the ball to be played after one: the next number, in eight-ball the
// nearest placed one of its group (common practice, no source).
func (l Leave) next(ball rack.Ball) (drill.RestingBall, bool) {
	from, _ := l.Place(ball)
	best, found := drill.RestingBall{}, false
	for _, r := range l.Placed {
		switch {
		case l.Game == rack.EightBall:
			if r.Ball != ball && r.Ball != 8 && r.Ball.IsStriped() == ball.IsStriped() && (!found || r.Place.Distance(from) < best.Place.Distance(from)) {
				best, found = r, true
			}
		case r.Ball > ball && !found:
			best, found = r, true
		}
	}
	for _, b := range l.Unplaced {
		if l.Game != rack.EightBall && b > ball && b < best.Ball {
			return drill.RestingBall{}, false // a ball that was not placed comes first
		}
	}
	return best, found
}

func (l Leave) without(ball rack.Ball) Leave {
	m := l
	m.Placed = nil
	for _, r := range l.Placed {
		if r.Ball != ball {
			m.Placed = append(m.Placed, r)
		}
	}
	return m
}

// The position model. The cue ball rolls when it meets the ball and goes on along
// its natural line; the player chooses how far, and comes within a fifth of it.
const (
	rollSteps   = 8
	rollStep    = 9.0 // inches
	rollMissing = 0.2
)

// Natural returns the direction of a rolling cue ball after a shot as a unit
// vector: turned off its line, away from the object ball, by atan(sin c cos c /
// (sin² c + 2/5)) for a cut c (equal balls, no friction between them: Wallace &
// Schroeder 1988; Alciatore's "30-degree rule").
func (s Shot) Natural() table.Vector {
	from, out := s.Cue, s.Ghost.VectorTo(s.Target)
	if s.Way == Kick {
		from = s.Turn
	}
	in := ghostLine(from, s.Ghost, out, out)
	sin, cos := math.Sincos(s.Cut.Radians())
	turn := math.Atan2(sin*cos, sin*sin+0.4)
	if in.Cross(out) > 0 {
		turn = -turn
	}
	return in.UnitVector().TurnedBy(turn)
}

// position is the chance of a direct shot on the next ball from the best of the
// distances that the cue ball may be rolled on its natural line, by at most two
// rails; each is the mean of coming short by a fifth, right, and long by a fifth.
func (l Leave) position(s Shot, next drill.RestingBall, a Accuracy) float64 {
	way := s.Natural()
	best := 0.0
	for i := range rollSteps {
		far := rollStep * float64(i)
		mean := 0.0
		for _, by := range [3]float64{1 - rollMissing, 1, 1 + rollMissing} {
			mean += l.ChanceFrom(l.rolled(s.Ghost, way.ScaledBy(far*by)), next.Ball, a) / 3
		}
		best = max(best, mean)
	}
	return best
}

// rolled returns where a ball comes that is rolled a way, off the rails like light.
func (l Leave) rolled(from table.Place, way table.Vector) table.Place {
	fold := func(v, low, high table.Inches) table.Inches {
		for v < low || v > high { // a table length at most, so a rail or two
			if v < low {
				v = 2*low - v
			} else {
				v = 2*high - v
			}
		}
		return v
	}
	to := from.MovedBy(way)
	half := l.Kind.Width()/2 - table.BallRadius
	return table.Place{X: fold(to.X, -half, half), Y: fold(to.Y, table.BallRadius, l.Kind.Length()-table.BallRadius)}
}

// ChanceFrom returns the chance of the best direct shot on a placed ball with the cue
// ball at a place; 0 where the cue ball cannot be, or the ball was not placed.
func (l Leave) ChanceFrom(cue table.Place, ball rack.Ball, a Accuracy) float64 {
	on, placed := l.Place(ball)
	if !placed || !l.clear(cue) {
		return 0
	}
	return newSearch(l, ball, on, a).chanceFrom(cue)
}
