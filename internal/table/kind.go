package table

import "fmt"

// Kind is a kind of table: what decides whether two tables can be compared.
// The zero Kind is not a table; use NineFoot, EightFoot or SevenFoot, or NewKind.
type Kind struct {
	// Feet is the nominal length: 7, 8 or 9.
	Feet int
	// Small says that the playing surface is the smaller of the two that go by 7 or
	// by 8 feet.
	Small bool
	// CornerMouth and SideMouth are the pocket mouths from nose tip to nose tip.
	CornerMouth, SideMouth Inches
}

// Ball sizes (WPA equipment specification s.16).
const (
	BallDiameter Inches = 2.25
	BallRadius   Inches = BallDiameter / 2
)

// Limits of the pocket mouths that are believed. The WPA specification (s.9)
// has corners of 4.5 to 4.625 in and sides of 5 to 5.125 in; tables are met
// with tighter and with wider ones, so these only catch slips of the pen.
const (
	TightestMouth Inches = 3.5
	WidestMouth   Inches = 6.5
)

// Standard mouths, at the tight end of WPA equipment specification s.9.
const (
	StandardCornerMouth Inches = 4.5
	StandardSideMouth   Inches = 5
)

// NineFoot, EightFoot and SevenFoot return the table with standard mouths.
func NineFoot() Kind { return Kind{9, false, StandardCornerMouth, StandardSideMouth} }

// EightFoot: see NineFoot.
func EightFoot() Kind { return Kind{8, false, StandardCornerMouth, StandardSideMouth} }

// SevenFoot: see NineFoot.
func SevenFoot() Kind { return Kind{7, false, StandardCornerMouth, StandardSideMouth} }

// NewKind checks the parts of a kind of table; a mouth of 0 means the standard one.
func NewKind(feet int, cornerMouth, sideMouth Inches) (Kind, error) {
	return Kind{Feet: feet, CornerMouth: cornerMouth, SideMouth: sideMouth}.Checked()
}

// Checked returns the kind with the standard mouth for a mouth of 0, or says what no
// table has.
func (k Kind) Checked() (Kind, error) {
	if k.Feet != 7 && k.Feet != 8 && k.Feet != 9 {
		return Kind{}, fmt.Errorf("a table of %d feet: 7, 8 and 9 are known", k.Feet)
	}
	if k.Small && k.Feet == 9 {
		return Kind{}, fmt.Errorf("a small table of 9 feet: small ones of 7 and 8 feet are known")
	}
	if k.CornerMouth == 0 {
		k.CornerMouth = StandardCornerMouth
	}
	if k.SideMouth == 0 {
		k.SideMouth = StandardSideMouth
	}
	for _, mouth := range []Inches{k.CornerMouth, k.SideMouth} {
		if !(mouth >= TightestMouth && mouth <= WidestMouth) {
			return Kind{}, fmt.Errorf("a pocket mouth of %s in: from %s to %s in are believed",
				mouth, TightestMouth, WidestMouth)
		}
	}
	return k, nil
}

// Length of the playing surface along y, from nose to nose.
func (k Kind) Length() Inches {
	switch {
	case k.Feet == 7 && k.Small:
		return 76
	case k.Feet == 7:
		return 78
	case k.Feet == 8 && k.Small:
		return 88
	case k.Feet == 8:
		return 92
	}
	return 100
}

// Width of the playing surface along x, from nose to nose: half the length.
func (k Kind) Width() Inches { return k.Length() / 2 }

// SideRailX returns the x of the nose of the side rail on that side.
func (k Kind) SideRailX(s Side) Inches { return s.Sign() * k.Width() / 2 }

// DiamondSpacing is the spacing of the sights: an eighth of the length (s.6).
func (k Kind) DiamondSpacing() Inches { return k.Length() / 8 }

// HeadString is the y of the line across the table a quarter up (s.8.1 of the
// rules of play).
func (k Kind) HeadString() Inches { return k.Length() / 4 }

// IsInMiddle reports whether a place lies between the head string and the centre.
func (k Kind) IsInMiddle(p Place) bool { return p.Y >= k.HeadString() && p.Y <= k.Length()/2 }

// HeadSpot, CentreSpot and FootSpot lie on the long string at a quarter, a
// half and three quarters of the length.
func (k Kind) HeadSpot() Place { return Place{0, k.Length() / 4} }

// CentreSpot: see HeadSpot.
func (k Kind) CentreSpot() Place { return Place{0, k.Length() / 2} }

// FootSpot: see HeadSpot.
func (k Kind) FootSpot() Place { return Place{0, k.Length() * 3 / 4} }

// OnCloth reports whether a ball's base can be there: between the noses, edges
// included.
func (k Kind) OnCloth(p Place) bool {
	half := k.Width() / 2
	return p.X >= -half && p.X <= half && p.Y >= 0 && p.Y <= k.Length()
}

// NearestOnCloth returns the place on the cloth that is nearest to p.
func (k Kind) NearestOnCloth(p Place) Place {
	half := k.Width() / 2
	return Place{X: min(max(p.X, -half), half), Y: min(max(p.Y, 0), k.Length())}
}

// SettleBall moves a place to the nearest one where a whole ball fits between the
// noses: a tap on the cushion means a ball frozen to it.
func (k Kind) SettleBall(p Place) Place {
	half := k.Width()/2 - BallRadius
	return Place{
		X: min(max(p.X, -half), half),
		Y: min(max(p.Y, BallRadius), k.Length()-BallRadius),
	}
}

// String names the kind: "9 ft, corners 4.5 in, sides 5 in".
func (k Kind) String() string {
	return fmt.Sprintf("%s ft, corners %s in, sides %s in", k.Size(), k.CornerMouth, k.SideMouth)
}
