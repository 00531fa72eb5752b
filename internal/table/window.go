package table

import (
	"errors"
	"fmt"
	"math"
)

// Window is a rectangle of the cloth in which the cue ball should stop, edges
// included.
type Window struct {
	Left, Right Inches // x of its sides, Left < Right
	Head, Foot  Inches // y of its ends, Head < Foot
}

// StandardWindow reaches from the head string to the centre of the table,
// across the middle half (common practice, no source).
func (k Kind) StandardWindow() Window {
	return Window{
		Left: -k.Width() / 4, Right: k.Width() / 4,
		Head: k.HeadString(), Foot: k.CentreSpot().Y,
	}
}

// Contains reports whether the place is inside or on the edge.
func (w Window) Contains(p Place) bool {
	return p.X >= w.Left && p.X <= w.Right && p.Y >= w.Head && p.Y <= w.Foot
}

// Mirror returns the window across the long string.
func (w Window) Mirror() Window {
	return Window{Left: FlipSign(w.Right), Right: FlipSign(w.Left), Head: w.Head, Foot: w.Foot}
}

// Scale returns the window in proportion on a table so many times as long, to the hundredth
// of an inch: the room that it leaves is not wider for a longer number.
func (w Window) Scale(by Inches) Window {
	if by == 1 {
		return w
	}
	carry := func(v Inches) Inches { return Inches(math.Round(float64(v*by)*100)/100) + 0 } // + 0 turns -0 into 0
	return Window{Left: carry(w.Left), Right: carry(w.Right), Head: carry(w.Head), Foot: carry(w.Foot)}
}

// ErrWindow is wrapped by every refusal of Check.
var ErrWindow = errors.New("the cue-ball window does not fit the table")

// Check refuses a window that is empty, smaller than a ball, or off the cloth.
func (w Window) Check(k Kind) error {
	switch {
	case !(w.Right-w.Left >= BallDiameter) || !(w.Foot-w.Head >= BallDiameter):
		return fmt.Errorf("%w: make it at least a ball wide and a ball long", ErrWindow)
	case !k.OnCloth(Place{w.Left, w.Head}) || !k.OnCloth(Place{w.Right, w.Foot}):
		return fmt.Errorf("%w: it must lie between the rails", ErrWindow)
	}
	return nil
}
