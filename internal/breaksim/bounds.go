package breaksim

import (
	"math"

	"breakwright/internal/table"
)

// tableBounds is what stands around the cloth: noses, facings, the points where they
// meet, and the lines at which a ball drops. Everything at the height of the
// nose; what lies behind a drop line is not modelled.
type tableBounds struct {
	halfWidth, length float64
	edges             []cushionEdge
	pockets           [6]pocketMouth
}

// cushionEdge is a straight nose of a rail or facing of a pocket, seen from above.
type cushionEdge struct {
	at, along, in vec // a point of it, unit vectors along it and off the rubber
	from, to      float64
	rail          railNumber // noRail for a facing
	pocket        int        // whose facing it is
	share         float64
}

// railNumber says which rail a nose belongs to.
type railNumber uint8

const (
	noRail railNumber = iota
	headRail
	footRail
	leftRail
	rightRail
)

// pocketMouth is a pocket: its two points, its facings and its drop line.
type pocketMouth struct {
	name    table.Pocket
	points  [2]vec
	facings [2]cushionEdge
	drop    vec // a point of the drop line
	out     vec // unit vector into the pocket, square to the drop line
	low     vec // box of places from which a ball can meet any of it
	high    vec
}

func newBounds(k table.Kind, p ModelParams) tableBounds {
	b := tableBounds{halfWidth: k.Width().Metres() / 2, length: k.Length().Metres()}
	for i := range b.pockets {
		b.pockets[i] = newMouth(k, p, i)
	}
	b.edges = append(b.edges,
		b.noseBetween(0, 0, 1, 0, headRail, vec{y: 1}), // head rail, head-left to head-right
		b.noseBetween(4, 0, 5, 0, footRail, vec{y: -1}),
		b.noseBetween(0, 1, 2, 0, leftRail, vec{x: 1}),
		b.noseBetween(2, 1, 4, 1, leftRail, vec{x: 1}),
		b.noseBetween(1, 1, 3, 0, rightRail, vec{x: -1}),
		b.noseBetween(3, 1, 5, 1, rightRail, vec{x: -1}))
	return b
}

// noseBetween returns the nose from a point of one pocket to a point of another.
func (b *tableBounds) noseBetween(pocketA, pointA, pocketB, pointB int, r railNumber, in vec) cushionEdge {
	from, to := b.pockets[pocketA].points[pointA], b.pockets[pocketB].points[pointB]
	d := to.sub(from)
	return cushionEdge{at: from, along: d.scaledBy(1 / d.norm()), in: in, to: d.norm(), rail: r, share: 1}
}

func newMouth(k table.Kind, p ModelParams, pocket int) pocketMouth {
	name := table.Pockets()[pocket]
	m := pocketMouth{name: name}
	first, second := k.JawTips(name)
	m.points = [2]vec{vecFromPlace(first), vecFromPlace(second)}
	across := vec{x: float64(name.Side().Sign())}
	lengthwise := vec{y: 1}
	if name.IsHead() {
		lengthwise.y = -1
	}
	shelf, cut := p.CornerShelf, p.CornerCut
	// towards[i] runs along the rail to the pocket, beyond[i] away from the table.
	towards, beyond := [2]vec{across, lengthwise}, [2]vec{lengthwise, across}
	m.out = across.add(lengthwise).scaledBy(1 / math.Sqrt2)
	if name.IsSide() {
		shelf, cut = p.SideShelf, p.SideCut
		towards, beyond = [2]vec{{y: 1}, {y: -1}}, [2]vec{across, across}
		m.out = across
	}
	depth := table.Inches(shelf).Metres()
	for i := range m.facings {
		turn := math.Pi - cut*math.Pi/180
		m.facings[i] = cushionEdge{
			at:    m.points[i],
			along: towards[i].scaledBy(math.Cos(turn)).plusScaled(math.Sin(turn), beyond[i]),
			in:    towards[i].scaledBy(math.Sin(turn)).plusScaled(-math.Cos(turn), beyond[i]),
			to:    depth + table.BallDiameter.Metres(), share: p.FacingShare, pocket: pocket,
		}
	}
	m.drop = m.points[0].add(m.points[1]).scaledBy(0.5).plusScaled(depth, m.out)
	m.computeBox()
	return m
}

// computeBox encloses points and drop line with more than a ball's width to spare.
func (m *pocketMouth) computeBox() {
	room := 1.5 * table.BallDiameter.Metres()
	m.low, m.high = m.drop, m.drop
	for _, p := range m.points {
		m.low = vec{min(m.low.x, p.x), min(m.low.y, p.y), 0}
		m.high = vec{max(m.high.x, p.x), max(m.high.y, p.y), 0}
	}
	m.low = m.low.sub(vec{room, room, 0})
	m.high = m.high.add(vec{room, room, 0})
}

func vecFromPlace(p table.Place) vec { return vec{x: p.X.Metres(), y: p.Y.Metres()} }

func placeFromVec(p vec) table.Place {
	return table.Place{X: table.InchesFromMetres(p.x), Y: table.InchesFromMetres(p.y)}
}

// isOutside reports whether a ball is where no ball on the table or in a pocket's
// throat can be.
func (b *tableBounds) isOutside(p vec) bool {
	const room = 0.08
	return math.Abs(p.x) > b.halfWidth+room || p.y < -room || p.y > b.length+room
}
