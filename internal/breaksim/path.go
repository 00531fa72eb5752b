package breaksim

import "breakwright/internal/table"

// BallPath is the way of a ball's base over the cloth, leg after leg.
type BallPath []PathLeg

// PathLeg is one stretch of a path under constant acceleration: exactly a parabola,
// hence exactly the quadratic Bézier curve (SVG's Q) with these three points,
// its parameter running evenly with time from Start to End, in seconds.
type PathLeg struct {
	From, Control, To table.Place
	Start, End        float64
	// Height of the base above the cloth at both ends.
	FromHeight, ToHeight table.Inches
}

// PlaceAt returns the place at a time, kept within the leg.
func (l PathLeg) PlaceAt(seconds float64) table.Place {
	if !(l.End > l.Start) {
		return l.To
	}
	u := table.Inches(min(max((seconds-l.Start)/(l.End-l.Start), 0), 1))
	mix := func(a, b, c table.Inches) table.Inches {
		return (1-u)*(1-u)*a + 2*u*(1-u)*b + u*u*c
	}
	return table.Place{
		X: mix(l.From.X, l.Control.X, l.To.X),
		Y: mix(l.From.Y, l.Control.Y, l.To.Y),
	}
}

// PlaceAt returns where the ball was at a time: at its start before the first leg,
// where it ended after the last. An empty path returns false.
func (p BallPath) PlaceAt(seconds float64) (table.Place, bool) {
	if len(p) == 0 {
		return table.Place{}, false
	}
	for _, l := range p {
		if seconds <= l.End {
			return l.PlaceAt(seconds), true
		}
	}
	return p[len(p)-1].To, true
}

// SamplePlaces returns places along the path for a polyline: every corner, and in
// between so many that no two are further apart than `every`. An `every` of 0
// or less returns the corners alone.
func (p BallPath) SamplePlaces(every table.Inches) []table.Place {
	var points []table.Place
	for i, l := range p {
		if i == 0 {
			points = append(points, l.From)
		}
		if every > 0 {
			length := 2 * max(l.From.Distance(l.Control), l.Control.Distance(l.To))
			pieces := int(length/every) + 1
			for k := 1; k < pieces; k++ {
				points = append(points, l.PlaceAt(l.Start+(l.End-l.Start)*float64(k)/float64(pieces)))
			}
		}
		points = append(points, l.To)
	}
	return points
}

func (p BallPath) mirrorPath() BallPath {
	if p == nil {
		return nil
	}
	m := make(BallPath, len(p))
	for i, l := range p {
		l.From, l.Control, l.To = l.From.Mirror(), l.Control.Mirror(), l.To.Mirror()
		m[i] = l
	}
	return m
}
