package rack

import (
	"fmt"

	"breakwright/internal/table"
)

// Game names the game racked for.
type Game string

// The games. Each has a file of its own.
const (
	NineBall  Game = "nine-ball"
	TenBall   Game = "ten-ball"
	EightBall Game = "eight-ball"
)

// Games lists them, the usual one first.
func Games() []Game { return []Game{NineBall, TenBall, EightBall} }

// gameRules are what a game's file states.
type gameRules struct {
	seats []rackSeat
	// fixed says which ball must stand in a slot.
	fixed map[Slot]Ball
	// also checks what is not a fixed ball; nil for nothing more.
	extraCheck func(inSlotOrder []Ball) error
	// practice is the order taught first, for a break from the left.
	practice string
	// wing is the slot of the wing ball on the left.
	wing Slot
	// spots are the ways of spotting the rack that the game knows.
	spots []Spot
}

func (g Game) ruleSet() gameRules {
	switch g {
	case TenBall:
		return tenBallRules
	case EightBall:
		return eightBallRules
	}
	return nineBallRules
}

// ParseGame reads a game's name.
func ParseGame(s string) (Game, error) {
	switch g := Game(s); g {
	case NineBall, TenBall, EightBall:
		return g, nil
	}
	return "", fmt.Errorf("game %q: the games are nine-ball, ten-ball and eight-ball", s)
}

// Words names the game in a sentence or a heading.
func (g Game) Words() string { return string(g) }

// BallCount is the number of object balls racked.
func (g Game) BallCount() int { return len(g.ruleSet().seats) }

// Slots lists the game's slots row by row, left to right as the breaker sees
// them, the head first.
func (g Game) Slots() []Slot {
	seats := g.ruleSet().seats
	slots := make([]Slot, len(seats))
	for i, s := range seats {
		slots[i] = s.slot
	}
	return slots
}

// WingSlot returns the slot of the wing ball on that side.
func (g Game) WingSlot(side table.Side) Slot {
	if side == table.Right {
		return g.ruleSet().wing.Mirror()
	}
	return g.ruleSet().wing
}

// Spots lists the ways of spotting the rack that the game knows, usual first.
func (g Game) Spots() []Spot { return g.ruleSet().spots }

// FixedBall returns the ball that must stand in a slot, and false if it is free.
func (g Game) FixedBall(slot Slot) (Ball, bool) {
	b, fixed := g.ruleSet().fixed[slot]
	return b, fixed
}

// PracticeOrder returns the order taught first for a break from that side: the next
// low ball in row 2 on the far side, the one after it on the break side
// (common practice, no source).
func (g Game) PracticeOrder(side table.Side) Order {
	order, err := ParseOrder(g, g.ruleSet().practice)
	if err != nil {
		panic("rack: the practice order of " + string(g) + ": " + err.Error())
	}
	if side == table.Right {
		return order.Mirror(g)
	}
	return order
}
