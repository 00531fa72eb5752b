package rack

import (
	"fmt"
	"strconv"
)

// Ball is an object ball's number, 1 to 15. The cue ball is none of them.
type Ball uint8

// HighestBall is the last number there is.
const HighestBall Ball = 15

// IsStriped reports whether the ball is a stripe (9 to 15); the 8 and below are not.
func (b Ball) IsStriped() bool { return b >= 9 }

// String writes the number.
func (b Ball) String() string { return strconv.Itoa(int(b)) }

// ParseBall reads a number from 1 to 15.
func ParseBall(s string) (Ball, error) {
	n, err := strconv.ParseUint(s, 10, 8)
	if err != nil || n < 1 || Ball(n) > HighestBall {
		return 0, fmt.Errorf("ball %q: a ball has a number from 1 to 15", s)
	}
	return Ball(n), nil
}
