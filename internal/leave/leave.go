package leave

import (
	"slices"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// Leave is where the cue ball and the object balls lie after a break, as far as
// it was written down.
type Leave struct {
	Kind table.Kind
	Game rack.Game
	// Hand says that the cue ball may be placed; Cue is then of no meaning.
	Hand CueBallHand
	Cue  table.Place
	// Placed are the balls whose place is known, by number. Unplaced are those
	// that are on the table too, somewhere.
	Placed   []drill.RestingBall
	Unplaced []rack.Ball
	// Won says that the rack was won by the break: there is nothing to shoot at.
	Won bool
	// Noted is what was said at the table of the shot; empty for nothing.
	Noted drill.Shot
}

// CueBallHand says where the next player may place the cue ball.
type CueBallHand string

// The ways to go on. After a foul on the break whoever comes to the table has
// the cue ball in hand: anywhere in nine-ball and ten-ball, behind the head
// string in eight-ball (WPA rules of play 2016, 2.7 and 3.3 g, h). An object ball
// driven off the table is a foul too (6.5, from memory).
const (
	InPlay   CueBallHand = ""
	Anywhere CueBallHand = "anywhere"
	Kitchen  CueBallHand = "kitchen"
)

// FromBreak returns what a break left. Balls are settled: a place on a cushion's nose
// means a ball frozen to it. Balls that left the table stay down, as in all
// three games but for the money ball (WPA rules of play 2016, 2.6, 3.3, 6.5).
func FromBreak(b drill.Break, s drill.Setup, k table.Kind) Leave {
	l := Leave{Kind: k, Game: s.Game, Noted: b.Shot}
	if b.Cue.How == drill.Stopped && len(b.Off) == 0 {
		l.Cue = k.SettleBall(b.Cue.Place)
	} else {
		l.Hand = Anywhere
		if s.Game == rack.EightBall {
			l.Hand = Kitchen
		}
	}
	for _, r := range b.Rest {
		l.Placed = append(l.Placed, drill.RestingBall{Ball: r.Ball, Place: k.SettleBall(r.Place)})
	}
	slices.SortFunc(l.Placed, func(a, b drill.RestingBall) int { return int(a.Ball) - int(b.Ball) })
	for _, ball := range s.Order.Balls() {
		if !hasLeftCloth(b, ball) && !l.placed(ball) {
			l.Unplaced = append(l.Unplaced, ball)
		}
	}
	slices.Sort(l.Unplaced)
	if money := moneyBall(s.Game); hasLeftCloth(b, money) {
		l.moneyDown(money, b)
	}
	return l
}

func hasLeftCloth(b drill.Break, ball rack.Ball) bool {
	_, pocketed := b.PocketOf(ball)
	return pocketed || slices.Contains(b.Off, ball)
}

func (l *Leave) placed(ball rack.Ball) bool {
	return slices.ContainsFunc(l.Placed, func(r drill.RestingBall) bool { return r.Ball == ball })
}

func moneyBall(g rack.Game) rack.Ball {
	switch g {
	case rack.TenBall:
		return 10
	case rack.EightBall:
		return 8
	}
	return 9
}

// moneyDown: the 9 on a legal break wins, after a foul or off the table it is
// spotted; the 10 and the 8 are spotted (WPA rules of play 2016, 2.5, 2.6, 3.3;
// 2008, ch. 9; in eight-ball the breaker may ask for a new rack instead).
func (l *Leave) moneyDown(money rack.Ball, b drill.Break) {
	_, pocketed := b.PocketOf(money)
	if l.Game == rack.NineBall && pocketed && l.Hand == InPlay {
		l.Won = true
		return
	}
	l.Placed = append(l.Placed, drill.RestingBall{Ball: money, Place: l.spot()})
	slices.SortFunc(l.Placed, func(a, b drill.RestingBall) int { return int(a.Ball) - int(b.Ball) })
}

// spot returns where a ball is spotted: the foot spot, or as near behind it on the
// long string as placed balls leave room (WPA rules of play 2016, 1.4, from
// memory).
func (l *Leave) spot() table.Place {
	at := l.Kind.FootSpot()
	for moved := true; moved; {
		moved = false
		for _, r := range l.standing() {
			if off := at.Distance(r); off < table.BallDiameter-1e-9 {
				at.Y = r.Y + behind(r.X)
				moved = true
			}
		}
	}
	return l.Kind.SettleBall(at)
}

// behind is how far along the long string a ball must be from one whose centre is
// x beside it, to touch it.
func behind(x table.Inches) table.Inches {
	return table.Inches(sqrt(float64(table.BallDiameter*table.BallDiameter-x*x))) + 1e-9
}

// standing lists the places of all balls that are known, the cue ball too.
func (l *Leave) standing() []table.Place {
	var places []table.Place
	for _, r := range l.Placed {
		places = append(places, r.Place)
	}
	if l.Hand == InPlay {
		places = append(places, l.Cue)
	}
	return places
}

// Targets lists the balls that may be shot at: the lowest ball on the table; in
// eight-ball, where the table is open after the break, every ball but the 8.
// None when the rack is won.
func (l Leave) Targets() []rack.Ball {
	if l.Won {
		return nil
	}
	var all []rack.Ball
	for _, r := range l.Placed {
		all = append(all, r.Ball)
	}
	all = append(all, l.Unplaced...)
	slices.Sort(all)
	if l.Game == rack.EightBall {
		all = slices.DeleteFunc(all, func(b rack.Ball) bool { return b == moneyBall(l.Game) })
		return all
	}
	return all[:min(1, len(all))]
}

// Place returns where a ball lies, and false if that is not known.
func (l Leave) Place(ball rack.Ball) (table.Place, bool) {
	for _, r := range l.Placed {
		if r.Ball == ball {
			return r.Place, true
		}
	}
	return table.Place{}, false
}

// Mirror returns the leave across the long string.
func (l Leave) Mirror() Leave {
	m := l
	m.Cue = l.Cue.Mirror()
	m.Placed = nil
	for _, r := range l.Placed {
		m.Placed = append(m.Placed, drill.RestingBall{Ball: r.Ball, Place: r.Place.Mirror()})
	}
	return m
}
