package table

import "fmt"

// Side is the side of the table broken from, as seen from the head end
// looking at the foot, whichever hand the player uses.
type Side string

// The two sides.
const (
	Left  Side = "left"
	Right Side = "right"
)

// ParseSide reads "left" or "right".
func ParseSide(s string) (Side, error) {
	switch side := Side(s); side {
	case Left, Right:
		return side, nil
	}
	return "", fmt.Errorf("side %q: a side is left or right", s)
}

// SideOf returns the side on which x lies; the long string itself counts as Left.
func SideOf(x Inches) Side {
	if x > 0 {
		return Right
	}
	return Left
}

// Mirror returns the other side.
func (s Side) Mirror() Side {
	if s == Left {
		return Right
	}
	return Left
}

// Sign is -1 on the left and +1 on the right: Sign times a distance from the
// long string is an x coordinate on that side.
func (s Side) Sign() Inches {
	if s == Left {
		return -1
	}
	return 1
}
