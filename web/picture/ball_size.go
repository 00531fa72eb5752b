package picture

import (
	"math"
	"strings"
)

// ballSize is how large the parts of a ball are drawn, in user units.
type ballSize struct {
	radius, ring float64
	circle, font float64 // the white circle and the number on it
	numberShift  float64 // how far the number is moved: negative is up
}

// tableBallSize is true to scale: a ball of 2 1/4 in, ring included.
var tableBallSize = ballSize{radius: 10.55, ring: 1.4, circle: 6.3, font: 10}

// restBallSize marks where a ball stopped, larger than the ball so that its number
// can be read on a phone.
var restBallSize = ballSize{radius: 14.3, ring: 1.4, circle: 8.8, font: 14}

// rackBallSize is the ball of a rack seen from close up, one inch being 40 units.
var rackBallSize = ballSize{radius: 44, ring: 2, circle: 23, font: 32}

// legendBallSize is the ball of a key.
var legendBallSize = ballSize{radius: 10}

// ropeWidth is the width of the ring around the ball aimed through, and ropeDashes
// sixteen equal strokes around it.
func (s ballSize) ropeWidth() float64 { return 1 + s.radius*0.09 }

func (s ballSize) ropeDashes() string { return formatUnits(2 * math.Pi * s.radius / 32) }

// stripePath is the band across a ball, a little more than half as wide.
func (s ballSize) stripePath() string {
	h := s.radius * 0.56
	w := math.Sqrt(s.radius*s.radius - h*h)
	r := formatUnits(s.radius)
	arc := "A" + r + " " + r + " 0 0 0 "
	var b strings.Builder
	b.WriteString("M" + formatUnits(-w) + " " + formatUnits(-h) + arc + formatUnits(-w) + " " + formatUnits(h))
	b.WriteString("H" + formatUnits(w) + arc + formatUnits(w) + " " + formatUnits(-h) + "z")
	return b.String()
}
