package picture

import (
	"math"
	"strings"

	"breakwright/internal/table"
)

// What the World Pool-Billiard Association's table and equipment specification
// says about the parts that are only drawn.
const (
	// cushionWidth from nose to featherstrip: 1 7/8 to 2 in (s.6).
	cushionWidth table.Inches = 2
	// diamondFromNose is the distance of a sight's centre from the nose (s.6).
	diamondFromNose table.Inches = 3.6875
	// The angles between nose line and pocket facing (s.9).
	cornerFacingDegrees = 142
	sideFacingDegrees   = 104
)

// Only drawn, chosen by eye within the shelves of s.9.
const (
	// cornerHoleBeyond is how far outside the corner, along each axis, the
	// middle of a corner's hole lies.
	cornerHoleBeyond table.Inches = 0.55
	sideHoleBeyond   table.Inches = 2.2
)

// facingSetBack is how far a facing that leaves the nose line at this angle has run
// along the rail by the time it reaches the back of the cushion.
func facingSetBack(degrees float64) table.Inches {
	return cushionWidth / table.Inches(math.Tan((180-degrees)*math.Pi/180))
}

// cushionOutline is a cushion seen from above: nose from tip to tip, then the back.
type cushionOutline [4]table.Place

// cushionOutlines returns the six: the two end rails, then the side rails from the head.
func cushionOutlines(k table.Kind) []cushionOutline {
	corner, side := facingSetBack(cornerFacingDegrees), facingSetBack(sideFacingDegrees)
	var all []cushionOutline
	for _, head := range []bool{true, false} {
		left, right, out := table.FootLeft, table.FootRight, cushionWidth
		if head {
			left, right, out = table.HeadLeft, table.HeadRight, -cushionWidth
		}
		a, _ := k.JawTips(left)
		b, _ := k.JawTips(right)
		all = append(all, cushionOutline{a, b,
			{X: b.X + corner, Y: b.Y + out}, {X: a.X - corner, Y: a.Y + out}})
	}
	for _, s := range []table.Side{table.Left, table.Right} {
		out := s.Sign() * cushionWidth
		_, a := k.JawTips(table.HeadCorner(s))
		b, c := k.JawTips(table.SidePocket(s))
		_, d := k.JawTips(table.FootCorner(s))
		all = append(all,
			cushionOutline{a, b, {X: b.X + out, Y: b.Y + side}, {X: a.X + out, Y: a.Y - corner}},
			cushionOutline{c, d, {X: d.X + out, Y: d.Y + corner}, {X: c.X + out, Y: c.Y - side}})
	}
	return all
}

// cushionPath writes all cushions as one path.
func cushionPath(k table.Kind) string {
	var b strings.Builder
	for _, c := range cushionOutlines(k) {
		b.WriteString("M" + formatPlace(c[0]))
		for _, p := range c[1:] {
			b.WriteString("L" + formatPlace(p))
		}
		b.WriteString("z")
	}
	return b.String()
}

// holeOutline is a pocket's hole seen from above.
type holeOutline struct {
	pocket table.Pocket
	at     table.Place
	radius table.Inches
}

// holeOutlines returns the six, as wide as their mouths and a little behind them.
func holeOutlines(k table.Kind) []holeOutline {
	all := make([]holeOutline, 0, 6)
	for _, p := range table.Pockets() {
		h := holeOutline{pocket: p, at: k.CornerPoint(p), radius: k.CornerMouth * 0.52}
		out := cornerHoleBeyond
		if p.IsSide() {
			out = sideHoleBeyond
			h.radius = k.SideMouth * 0.44
		}
		h.at.X += p.Side().Sign() * out
		switch {
		case p.IsHead():
			h.at.Y -= out
		case p.IsFoot():
			h.at.Y += out
		}
		all = append(all, h)
	}
	return all
}

// railDiamond is one of the eighteen diamonds, and its number counted from the head
// rail along the sides and from the left along the ends.
type railDiamond struct {
	at     table.Place
	number int
	// out points from the sight to the outside of the table.
	out table.Place
}

// railDiamonds returns the eighteen: the side rails have one at each eighth of the
// length except the middle, where the pocket is, the ends one at each quarter
// of the width (s.6).
func railDiamonds(k table.Kind) []railDiamond {
	var all []railDiamond
	for _, s := range []table.Side{table.Left, table.Right} {
		for n := 1; n <= 7; n++ {
			if n == 4 {
				continue
			}
			x := k.SideRailX(s) + s.Sign()*diamondFromNose
			all = append(all, railDiamond{table.Place{X: x, Y: table.Inches(n) * k.DiamondSpacing()}, n, table.Place{X: s.Sign()}})
		}
	}
	for n := 1; n <= 3; n++ {
		x := table.Inches(n-2) * k.DiamondSpacing()
		all = append(all,
			railDiamond{table.Place{X: x, Y: -diamondFromNose}, n, table.Place{Y: -1}},
			railDiamond{table.Place{X: x, Y: k.Length() + diamondFromNose}, n, table.Place{Y: 1}})
	}
	return all
}

// diamondPath writes the sights as one path of lozenges around their centres,
// long along their rail.
func diamondPath(k table.Kind) string {
	var b strings.Builder
	for _, s := range railDiamonds(k) {
		lozenge := "m0-6l3.5 6-3.5 6-3.5-6z"
		if s.out.X == 0 {
			lozenge = "m-6 0l6-3.5 6 3.5-6 3.5z"
		}
		b.WriteString("M" + formatPlace(s.at) + lozenge)
	}
	return b.String()
}
