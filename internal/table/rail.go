package table

// Rail names one of the four rails, left and right as seen from the head end.
type Rail string

// The four rails.
const (
	HeadRail  Rail = "head-rail"
	FootRail  Rail = "foot-rail"
	LeftRail  Rail = "left-rail"
	RightRail Rail = "right-rail"
)

// Rails lists the four, the ends first.
func Rails() []Rail { return []Rail{HeadRail, FootRail, LeftRail, RightRail} }

// Mirror returns the rail across the long string.
func (r Rail) Mirror() Rail {
	switch r {
	case LeftRail:
		return RightRail
	case RightRail:
		return LeftRail
	}
	return r
}

// NoseReach is how far from a nose, seen from above, the centre of a ball is
// that touches it: less than the ball's radius, since the nose is above the
// ball's middle, at 63.5 percent of its height (WPA equipment specification s.7,
// from memory): R·sqrt(1 - 0.27²).
const NoseReach Inches = BallRadius * 0.962860

// TurningLine returns the line on which a ball's centre turns when it meets the rail:
// the rail's nose moved in by NoseReach. It is a place on that line and the unit
// vector from it off the table.
func (k Kind) TurningLine(r Rail) (at Place, out Vector) {
	switch r {
	case HeadRail:
		return Place{0, NoseReach}, Vector{0, -1}
	case FootRail:
		return Place{0, k.Length() - NoseReach}, Vector{0, 1}
	case LeftRail:
		return Place{NoseReach - k.Width()/2, k.Length() / 2}, Vector{-1, 0}
	}
	return Place{k.Width()/2 - NoseReach, k.Length() / 2}, Vector{1, 0}
}

// ReflectPlace returns the image of a place beyond the line on which balls turn at the
// rail: a straight line to the image is a path by way of that rail, if balls
// turned as light does at a looking-glass.
func (k Kind) ReflectPlace(p Place, r Rail) Place {
	at, out := k.TurningLine(r)
	return p.MovedBy(out.ScaledBy(2 * p.VectorTo(at).Dot(out)))
}

// IsFrozen reports whether a ball at a place touches the rail, to a hundredth of an
// inch, as SettleBall puts it there.
func (k Kind) IsFrozen(p Place, r Rail) bool {
	at, out := k.TurningLine(r)
	return p.VectorTo(at).Dot(out) < float64(BallRadius-NoseReach)+0.01
}

// OpenPockets lists the pockets whose mouths open in the rail.
func (r Rail) OpenPockets() []Pocket {
	switch r {
	case HeadRail:
		return []Pocket{HeadLeft, HeadRight}
	case FootRail:
		return []Pocket{FootLeft, FootRight}
	case LeftRail:
		return []Pocket{HeadLeft, SideLeft, FootLeft}
	}
	return []Pocket{HeadRight, SideRight, FootRight}
}
