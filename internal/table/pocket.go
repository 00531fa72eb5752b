package table

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Pocket names one of the six pockets, left and right as seen from the head end.
type Pocket string

// The six pockets.
const (
	HeadLeft  Pocket = "head-left"
	HeadRight Pocket = "head-right"
	SideLeft  Pocket = "side-left"
	SideRight Pocket = "side-right"
	FootLeft  Pocket = "foot-left"
	FootRight Pocket = "foot-right"
)

// Pockets lists the six from the head end to the foot, left before right.
func Pockets() []Pocket {
	return []Pocket{HeadLeft, HeadRight, SideLeft, SideRight, FootLeft, FootRight}
}

// ParsePocket reads a pocket's name.
func ParsePocket(s string) (Pocket, error) {
	if p := Pocket(s); slices.Contains(Pockets(), p) {
		return p, nil
	}
	return "", fmt.Errorf("pocket %q: the pockets are head-left, head-right, side-left, side-right, foot-left and foot-right", s)
}

// FootCorner, SidePocket and HeadCorner name the pocket on that side.
func FootCorner(s Side) Pocket { return Pocket("foot-" + string(s)) }

// SidePocket: see FootCorner.
func SidePocket(s Side) Pocket { return Pocket("side-" + string(s)) }

// HeadCorner: see FootCorner.
func HeadCorner(s Side) Pocket { return Pocket("head-" + string(s)) }

// Side says on which side of the table the pocket is.
func (p Pocket) Side() Side {
	if strings.HasSuffix(string(p), "-left") {
		return Left
	}
	return Right
}

// IsSide, IsHead and IsFoot say which pair the pocket belongs to.
func (p Pocket) IsSide() bool { return p == SideLeft || p == SideRight }

// IsHead: see IsSide.
func (p Pocket) IsHead() bool { return p == HeadLeft || p == HeadRight }

// IsFoot: see IsSide.
func (p Pocket) IsFoot() bool { return p == FootLeft || p == FootRight }

// Mirror returns the pocket across the long string.
func (p Pocket) Mirror() Pocket {
	switch {
	case p.IsHead():
		return HeadCorner(p.Side().Mirror())
	case p.IsSide():
		return SidePocket(p.Side().Mirror())
	}
	return FootCorner(p.Side().Mirror())
}

// Words names the pocket in a sentence: "the left foot corner".
func (p Pocket) Words() string { return "the " + p.Name() }

// Name is what the pocket is called: "left foot corner".
func (p Pocket) Name() string {
	if p.IsSide() {
		return p.ShortName() + " pocket"
	}
	return p.ShortName() + " corner"
}

// ShortName is its name where there is little room: "left foot".
func (p Pocket) ShortName() string {
	side := string(p.Side())
	switch {
	case p.IsHead():
		return side + " head"
	case p.IsSide():
		return side + " side"
	}
	return side + " foot"
}

// CornerPoint returns the point where the pocket's two nose lines would meet for a
// corner, and the middle of the mouth on the nose line for a side pocket.
func (k Kind) CornerPoint(p Pocket) Place {
	at := Place{X: k.SideRailX(p.Side())}
	switch {
	case p.IsSide():
		at.Y = k.Length() / 2
	case p.IsFoot():
		at.Y = k.Length()
	}
	return at
}

// JawTips returns the two nose tips of a pocket's mouth, head end or long string
// first. A corner's mouth lies across the corner at 45 degrees, so its tips
// are mouth/√2 from the corner along each rail.
func (k Kind) JawTips(p Pocket) (first, second Place) {
	at := k.CornerPoint(p)
	if p.IsSide() {
		return Place{at.X, at.Y - k.SideMouth/2}, Place{at.X, at.Y + k.SideMouth/2}
	}
	along := k.CornerMouth / Inches(math.Sqrt2)
	onEndRail := Place{at.X - p.Side().Sign()*along, at.Y}
	if p.IsHead() {
		return onEndRail, Place{at.X, along}
	}
	return onEndRail, Place{at.X, at.Y - along}
}
