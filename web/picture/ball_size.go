package picture

import (
	"math"
	"strings"
)

// ballSize is how large the parts of a ball are drawn, in user units.
type ballSize struct {
	radius, ring float64
	circle, font float64 // the white circle and the number on it
	up           float64 // how far the number is moved: negative is up
}

// tableBall is true to scale: a ball of 2 1/4 in, ring included.
var tableBall = ballSize{radius: 10.55, ring: 1.4, circle: 6.3, font: 10}

// restBall marks where a ball stopped, larger than the ball so that its number
// can be read on a phone.
var restBall = ballSize{radius: 14.3, ring: 1.4, circle: 8.8, font: 14}

// rackBall is the ball of a rack seen from close up, one inch being 40 units.
var rackBall = ballSize{radius: 44, ring: 2, circle: 23, font: 32}

// keyBall is the ball of a key.
var keyBall = ballSize{radius: 10}

// rope is the width of the ring around the ball aimed through, and ropeDashes
// sixteen equal strokes around it.
func (s ballSize) rope() float64 { return 1 + s.radius*0.09 }

func (s ballSize) ropeDashes() string { return units(2 * math.Pi * s.radius / 32) }

// stripe is the band across a ball, a little more than half as wide.
func (s ballSize) stripe() string {
	h := s.radius * 0.56
	w := math.Sqrt(s.radius*s.radius - h*h)
	r := units(s.radius)
	arc := "A" + r + " " + r + " 0 0 0 "
	var b strings.Builder
	b.WriteString("M" + units(-w) + " " + units(-h) + arc + units(-w) + " " + units(h))
	b.WriteString("H" + units(w) + arc + units(w) + " " + units(-h) + "z")
	return b.String()
}
