package table

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Place is a point on the cloth, in the coordinates of the package comment.
type Place struct {
	X, Y Inches
}

// Mirror returns the place on the other side of the long string. Mirroring
// twice is the identity, and a place on the long string stays itself.
func (p Place) Mirror() Place { return Place{X: FlipSign(p.X), Y: p.Y} }

// FlipSign changes the sign of a coordinate or of anything else that points left
// or right, without ever making a negative zero (which would print as "-0").
func FlipSign[T ~float64](v T) T { return 0 - v }

// Distance between two places.
func (p Place) Distance(q Place) Inches {
	return Inches(math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)))
}

// String writes "x,y" as the break log does: "-3.5,41".
func (p Place) String() string { return p.X.String() + "," + p.Y.String() }

// ParsePlace reads "x,y". It accepts only finite numbers.
func ParsePlace(s string) (Place, error) {
	xs, ys, found := strings.Cut(s, ",")
	if !found {
		return Place{}, fmt.Errorf("place %q: write it as x,y in inches, for example -3.5,41", s)
	}
	x, errX := parseInches(xs)
	y, errY := parseInches(ys)
	if errX != nil || errY != nil {
		return Place{}, fmt.Errorf("place %q: write it as x,y in inches, for example -3.5,41", s)
	}
	return Place{X: x, Y: y}, nil
}

func parseInches(s string) (Inches, error) {
	v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q is not a number of inches", s)
	}
	return Inches(v), nil
}
