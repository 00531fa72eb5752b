package rack

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
)

// Order says which ball stands in which slot, in the order of Game.Slots.
// Orders can be compared with ==; the zero Order is no order.
type Order struct {
	balls [15]Ball
	n     uint8
}

// ErrOrder is wrapped by every refusal of an order.
var ErrOrder = errors.New("rack order not allowed")

// ExplainRefusal returns a refusal of an order without saying that it is one, for where
// that is plain.
func ExplainRefusal(err error) string {
	return strings.TrimPrefix(err.Error(), ErrOrder.Error()+": ")
}

// NewOrder makes an order from balls in slot order and checks it.
func NewOrder(g Game, balls []Ball) (Order, error) {
	var o Order
	if len(balls) != g.BallCount() {
		return Order{}, fmt.Errorf("%w: %s has %d balls, not %d", ErrOrder, g.Words(), g.BallCount(), len(balls))
	}
	o.n = uint8(copy(o.balls[:], balls))
	return o, o.Check(g)
}

// ParseOrder reads balls in slot order separated by "-" and checks the order.
func ParseOrder(g Game, s string) (Order, error) {
	parts := strings.Split(s, "-")
	balls := make([]Ball, len(parts))
	for i, part := range parts {
		b, err := ParseBall(strings.TrimSpace(part))
		if err != nil {
			return Order{}, fmt.Errorf("%w: %w", ErrOrder, err)
		}
		balls[i] = b
	}
	return NewOrder(g, balls)
}

// ParseTypedOrder is ParseOrder for what people type: the balls parted by hyphens,
// dashes, commas or blanks.
func ParseTypedOrder(g Game, typed string) (Order, error) {
	return ParseOrder(g, strings.Join(strings.FieldsFunc(typed, func(r rune) bool {
		return strings.ContainsRune("-–−, \t", r)
	}), "-"))
}

// String writes the balls in slot order: "1-3-2-8-9-5-6-4-7". The zero Order
// writes nothing.
func (o Order) String() string {
	parts := make([]string, o.n)
	for i := range parts {
		parts[i] = o.balls[i].String()
	}
	return strings.Join(parts, "-")
}

// IsZero reports whether no order was given.
func (o Order) IsZero() bool { return o.n == 0 }

// Check says what in the order the game's rules do not allow; nil is legal.
func (o Order) Check(g Game) error {
	r := g.ruleSet()
	if int(o.n) != len(r.seats) {
		return fmt.Errorf("%w: %s has %d balls, not %d", ErrOrder, g.Words(), len(r.seats), o.n)
	}
	var seen [16]bool
	for i, s := range r.seats {
		b := o.balls[i]
		if b < 1 || int(b) > len(r.seats) {
			return fmt.Errorf("%w: %s has no %s ball", ErrOrder, g.Words(), b)
		}
		if seen[b] {
			return fmt.Errorf("%w: the %s is there twice", ErrOrder, b)
		}
		seen[b] = true
		if want, fixed := r.fixed[s.slot]; fixed && b != want {
			return fmt.Errorf("%w: the %s belongs in slot %s", ErrOrder, want, s.slot)
		}
	}
	if r.extraCheck != nil {
		if err := r.extraCheck(o.balls[:o.n]); err != nil {
			return fmt.Errorf("%w: %w", ErrOrder, err)
		}
	}
	return nil
}

// Balls lists the balls in slot order.
func (o Order) Balls() []Ball { return append([]Ball(nil), o.balls[:o.n]...) }

// BallAt returns the ball in a slot, and false for a slot the game does not have.
func (o Order) BallAt(g Game, slot Slot) (Ball, bool) {
	for i, s := range g.ruleSet().seats {
		if s.slot == slot && i < int(o.n) {
			return o.balls[i], true
		}
	}
	return 0, false
}

// SlotOf returns the slot a ball stands in, and false if it is not racked.
func (o Order) SlotOf(g Game, b Ball) (Slot, bool) {
	for i, s := range g.ruleSet().seats {
		if i < int(o.n) && o.balls[i] == b {
			return s.slot, true
		}
	}
	return "", false
}

// SwapSlots exchanges the balls of two slots, if the game allows the result.
func (o Order) SwapSlots(g Game, a, b Slot) (Order, error) {
	i, j := g.slotIndex(a), g.slotIndex(b)
	if i < 0 || j < 0 || i >= int(o.n) || j >= int(o.n) {
		return o, fmt.Errorf("%w: %s has no slot %s or %s", ErrOrder, g.Words(), a, b)
	}
	swapped := o
	swapped.balls[i], swapped.balls[j] = o.balls[j], o.balls[i]
	if err := swapped.Check(g); err != nil {
		return o, err
	}
	return swapped, nil
}

// Mirror returns the order across the long string. The mirror of a legal order
// is legal, and mirroring twice is the identity.
func (o Order) Mirror(g Game) Order {
	mirrored := o
	for i, s := range g.ruleSet().seats {
		if i < int(o.n) {
			mirrored.balls[g.slotIndex(s.slot.Mirror())] = o.balls[i]
		}
	}
	return mirrored
}

// ShuffleOrder returns a fair legal order: every legal order is equally likely.
func ShuffleOrder(g Game, rng *rand.Rand) Order {
	var o Order
	o.n = uint8(g.BallCount())
	for {
		for i := range o.n {
			o.balls[i] = Ball(i + 1)
		}
		rng.Shuffle(int(o.n), func(i, j int) { o.balls[i], o.balls[j] = o.balls[j], o.balls[i] })
		o.placeFixed(g)
		if o.Check(g) == nil {
			return o
		}
	}
}

// placeFixed swaps each fixed ball into its slot; done to a uniform shuffle it
// leaves the free balls uniform.
func (o *Order) placeFixed(g Game) {
	for i, s := range g.ruleSet().seats {
		want, fixed := g.ruleSet().fixed[s.slot]
		if !fixed {
			continue
		}
		for j := range o.balls[:o.n] {
			if o.balls[j] == want {
				o.balls[i], o.balls[j] = o.balls[j], o.balls[i]
				break
			}
		}
	}
}

func (g Game) slotIndex(slot Slot) int {
	for i, s := range g.ruleSet().seats {
		if s.slot == slot {
			return i
		}
	}
	return -1
}
