package picture

import (
	"math"
	"strings"

	"github.com/a-h/templ"

	"breakwright/internal/say"
	"breakwright/internal/table"
)

// dotRadius is that of a numbered mark, in user units: larger than a ball, so
// that its number can be read on a phone.
const dotRadius = 15

// boxPath is the two sides of the break box, from the head rail to the head string.
func boxPath(t TableView) string {
	head := formatY(t.Kind.HeadString())
	return "M" + formatPlace(table.Place{X: -t.Box}) + "V" + head + "M" + formatPlace(table.Place{X: t.Box}) + "V" + head
}

// aimLine is the line drawn, if one is asked for and possible.
func (t TableView) aimLine() (AimLine, bool) {
	if t.Rack == nil || t.Cue == nil || !t.Cue.Aim {
		return AimLine{}, false
	}
	return FindAimLine(*t.Cue, *t.Rack, t.Kind)
}

// placedBalls are the racked balls where they stand.
func (r RackedBalls) placedBalls(k table.Kind) []RestBall {
	var all []RestBall
	for _, slot := range r.Game.Slots() {
		b, racked := r.Order.BallAt(r.Game, slot)
		p, known := r.Game.SlotPlace(slot, r.Spot, k)
		if racked && known {
			all = append(all, RestBall{b, p})
		}
	}
	return all
}

// wingPath leads from the wing ball to the middle of its corner's mouth.
func (r RackedBalls) wingPath(k table.Kind) string {
	from, known := r.Game.SlotPlace(r.Wing, r.Spot, k)
	if !known {
		return ""
	}
	a, b := k.JawTips(r.wingPocket())
	return "M" + formatPlace(from) + "L" + formatPlace(table.Place{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2})
}

func (p Path) svgPath() string {
	parts := make([]string, len(p.Places))
	for i, place := range p.Places {
		parts[i] = formatPlace(place)
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
	way := directionTo(from, to)
	a, b := way.pointFrom(from, table.BallRadius*1.2), way.pointFrom(from, apart-table.BallRadius*1.3)
	side := unitVector{way.y, -way.x}
	neck := way.pointFrom(b, -0.8)
	return "M" + formatPlace(a) + "L" + formatPlace(b) + "M" + formatPlace(side.pointFrom(neck, 0.6)) + "L" + formatPlace(b) + "L" + formatPlace(side.pointFrom(neck, -0.6))
}

// attributes of the ellipse; the picture's y axis points the other way, so the
// angle changes its sign.
func (e Ellipse) attributes() templ.Attributes {
	degrees := formatUnits(table.FlipSign(e.AngleRadians) * 180 / math.Pi)
	return templ.Attributes{
		"cx": formatX(e.Centre.X), "cy": formatY(e.Centre.Y), "rx": formatX(e.Major), "ry": formatX(e.Minor),
		"transform": "rotate(" + degrees + " " + formatPlace(e.Centre) + ")",
	}
}

// placedLabel is a text at a place.
type placedLabel struct {
	at    table.Place
	words string
}

// measureFont is the size of the labels in user units: the longest fits in half
// the table.
func measureFont(k table.Kind) float64 { return float64(k.Width()) * 0.44 }

// measureLabels stand in the cue ball's half of the kitchen, or across in the other, below the line
// that measures it: how far across, and below that how far along.
func measureLabels(p table.Place, k table.Kind, u say.Units, across bool) []placedLabel {
	line := table.Inches(measureFont(k) / UnitsPerInch)
	x := table.SideOf(p.X).Sign() * k.Width() / 4
	if across {
		x = -x
	}
	y := p.Y - table.BallRadius - 0.9 - line*0.85
	return []placedLabel{
		{table.Place{X: x, Y: y}, shortAcross(p.X, u)},
		{table.Place{X: x, Y: y - line*1.25}, shortAlong(p, k, u)},
	}
}

// measurePath is a line with end strokes from the long string to the cue ball.
func measurePath(p table.Place) string {
	y := p.Y - table.BallRadius - 0.7
	if absInches(p.X) < table.BallRadius {
		return ""
	}
	return "M" + formatPlace(table.Place{X: 0, Y: y + 0.5}) + "V" + formatY(y-0.5) +
		"M" + formatPlace(table.Place{X: 0, Y: y}) + "H" + formatX(p.X) +
		"M" + formatPlace(table.Place{X: p.X, Y: y + 0.5}) + "V" + formatY(y-0.5)
}

// lostMark is a break whose cue ball did not stop on the table.
type lostMark struct {
	number   int
	at       table.Place
	offTable bool
}

// markPath is a square for a scratch and a triangle for a ball off the table.
func (m lostMark) markPath() string {
	if m.offTable {
		return "M" + formatPlace(m.at) + "m0-23l24 40h-48z"
	}
	return "M" + formatPlace(m.at) + "m-13.5-13.5h27v27h-27z"
}

// numberPlace is where the mark's number stands.
func (m lostMark) numberPlace() table.Place {
	if m.offTable {
		return table.Place{X: m.at.X, Y: m.at.Y - 0.55}
	}
	return m.at
}

// lostMarks places the scratches at their pockets, further ones in a row along the
// side rail, and the balls off the table in a row above the foot rail.
func (t TableView) lostMarks() []lostMark {
	const apart table.Inches = 3.1
	var all []lostMark
	taken := map[table.Pocket]int{}
	for _, s := range t.Scratches {
		at := pocketMark(t.Kind, s.Pocket)
		along := apart * table.Inches(taken[s.Pocket])
		if s.Pocket.IsFoot() || s.Pocket.IsSide() {
			along = -along
		}
		at.Y += along
		taken[s.Pocket]++
		all = append(all, lostMark{s.Break, at, false})
	}
	off := t.drawnOffTable()
	for i, number := range off {
		x := (table.Inches(i) - table.Inches(len(off)-1)/2) * 4.9
		all = append(all, lostMark{number, table.Place{X: x, Y: t.Kind.Length() + railWidth + 1.9}, true})
	}
	return all
}

// pocketMark is where a pocket's first scratch is marked.
func pocketMark(k table.Kind, p table.Pocket) table.Place {
	for _, h := range holeOutlines(k) {
		if h.pocket == p {
			return h.at
		}
	}
	return k.CentreSpot()
}
