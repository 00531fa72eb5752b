package picture

import (
	"math"
	"strings"

	"github.com/a-h/templ"

	"breakwright/internal/table"
)

// dotRadius is that of a numbered mark, in user units: larger than a ball, so
// that its number can be read on a phone.
const dotRadius = 15

// aim is the line drawn, if one is asked for and possible.
func (t TableView) aim() (Aim, bool) {
	if t.Rack == nil || t.Cue == nil || !t.Cue.Aim {
		return Aim{}, false
	}
	return AimAt(*t.Cue, *t.Rack, t.Kind)
}

// balls are the racked balls where they stand.
func (r Racked) balls(k table.Kind) []RestBall {
	var all []RestBall
	for _, slot := range r.Game.Slots() {
		b, racked := r.Order.At(r.Game, slot)
		p, known := r.Game.Place(slot, r.Spot, k)
		if racked && known {
			all = append(all, RestBall{b, p})
		}
	}
	return all
}

// wingPath leads from the wing ball to the middle of its corner's mouth.
func (r Racked) wingPath(k table.Kind) string {
	from, known := r.Game.Place(r.Wing, r.Spot, k)
	if !known {
		return ""
	}
	a, b := k.Jaws(r.wingPocket())
	return "M" + at(from) + "L" + at(table.Place{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2})
}

func (p Path) path() string {
	parts := make([]string, len(p.Places))
	for i, place := range p.Places {
		parts[i] = at(place)
	}
	return "M" + strings.Join(parts, "L")
}

// arrowPath leads from one ball to another and ends in an open head; balls that
// touch get none.
func arrowPath(from, to table.Place) string {
	apart := from.Distance(to)
	if apart < table.BallDiameter*1.2 {
		return ""
	}
	way := towards(from, to)
	a, b := way.from(from, table.BallRadius*1.2), way.from(from, apart-table.BallRadius*1.3)
	side := direction{way.y, -way.x}
	neck := way.from(b, -0.8)
	return "M" + at(a) + "L" + at(b) + "M" + at(side.from(neck, 0.6)) + "L" + at(b) + "L" + at(side.from(neck, -0.6))
}

// attributes of the ellipse; the picture's y axis points the other way, so the
// angle changes its sign.
func (e Ellipse) attributes() templ.Attributes {
	degrees := units(table.Flip(e.AngleRadians) * 180 / math.Pi)
	return templ.Attributes{
		"cx": u(e.Centre.X), "cy": v(e.Centre.Y), "rx": u(e.Major), "ry": u(e.Minor),
		"transform": "rotate(" + degrees + " " + at(e.Centre) + ")",
	}
}

// label is a text at a place.
type label struct {
	at    table.Place
	words string
}

// measureFont is the size of the labels in user units: the longest fits in half
// the table.
func measureFont(k table.Kind) float64 { return float64(k.Width()) * 0.44 }

// measureLabels stand in the cue ball's half of the kitchen, below the line
// that measures it: how far across, and below that how far along.
func measureLabels(p table.Place, k table.Kind) []label {
	line := table.Inches(measureFont(k) / UnitsPerInch)
	x := table.SideOf(p.X).Sign() * k.Width() / 4
	y := p.Y - table.BallRadius - 0.9 - line*0.85
	return []label{
		{table.Place{X: x, Y: y}, shortAcross(p.X)},
		{table.Place{X: x, Y: y - line*1.25}, shortAlong(p, k)},
	}
}

// measurePath is a line with end strokes from the long string to the cue ball.
func measurePath(p table.Place) string {
	y := p.Y - table.BallRadius - 0.7
	if abs(p.X) < table.BallRadius {
		return ""
	}
	return "M" + at(table.Place{X: 0, Y: y + 0.5}) + "V" + v(y-0.5) +
		"M" + at(table.Place{X: 0, Y: y}) + "H" + u(p.X) +
		"M" + at(table.Place{X: p.X, Y: y + 0.5}) + "V" + v(y-0.5)
}

// goneMark is a break whose cue ball did not stop on the table.
type goneMark struct {
	number   int
	at       table.Place
	offTable bool
}

// path is a square for a scratch and a triangle for a ball off the table.
func (m goneMark) path() string {
	if m.offTable {
		return "M" + at(m.at) + "m0-23l24 40h-48z"
	}
	return "M" + at(m.at) + "m-13.5-13.5h27v27h-27z"
}

// label is where the mark's number stands.
func (m goneMark) label() table.Place {
	if m.offTable {
		return table.Place{X: m.at.X, Y: m.at.Y - 0.55}
	}
	return m.at
}

// gone places the scratches at their pockets, further ones in a row along the
// side rail, and the balls off the table in a row above the foot rail.
func (t TableView) gone() []goneMark {
	const apart table.Inches = 3.1
	var all []goneMark
	taken := map[table.Pocket]int{}
	for _, s := range t.Scratches {
		at := pocketMark(t.Kind, s.Pocket)
		along := apart * table.Inches(taken[s.Pocket])
		if s.Pocket.IsFoot() || s.Pocket.IsSide() {
			along = -along
		}
		at.Y += along
		taken[s.Pocket]++
		all = append(all, goneMark{s.Break, at, false})
	}
	off := t.off()
	for i, number := range off {
		x := (table.Inches(i) - table.Inches(len(off)-1)/2) * 4.9
		all = append(all, goneMark{number, table.Place{X: x, Y: t.Kind.Length() + railWidth + 1.9}, true})
	}
	return all
}

// pocketMark is where a pocket's first scratch is marked.
func pocketMark(k table.Kind, p table.Pocket) table.Place {
	for _, h := range holes(k) {
		if h.pocket == p {
			return h.at
		}
	}
	return k.CentreSpot()
}
