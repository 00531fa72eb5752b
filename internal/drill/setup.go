package drill

import (
	"fmt"
	"math"

	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// RadiusFraction is a distance from the centre of the cue ball as a fraction of its
// radius: tip height (negative below centre, draw) or side spin (negative left).
type RadiusFraction float64

// Setup is everything the breaker is asked to do. Setups can be compared with ==
// after Rounded.
type Setup struct {
	Game  rack.Game
	Spot  rack.Spot
	Order rack.Order
	// Side is the side of the table broken from.
	Side table.Side
	// Wing is the slot of the wing ball being played, usually the one on Side.
	Wing rack.Slot
	// Cue is where the cue ball is placed, on or behind the head string.
	Cue table.Place
	// Contact is where the cue ball is sent at the head ball: inches from a full
	// hit, positive to the right as the breaker sees it.
	Contact table.Inches
	Tip     RadiusFraction
	Spin    RadiusFraction
	// Speed is the speed asked for; 0 means "your own controlled speed".
	Speed table.Mph
}

// Limits of a setup's parts (common practice, no source). The tip's limit is
// near the miscue limit of about half a radius (Alciatore, Technical Proof 2.1).
//
// A full hit lies within MaxContact of full. With the centre ball on the foot
// spot the usual answer is a cut break, which begins at about three quarters of
// the head ball, 0.56 in off full: there MaxCutContact is the limit.
const (
	MaxContact     table.Inches   = 0.5
	MaxCutContact  table.Inches   = 1.1
	MaxTip         RadiusFraction = 0.5
	MaxSpin        RadiusFraction = 0.3
	SlowestBreak   table.Mph      = 14
	FastestBreak   table.Mph      = 24
	FurthestBehind table.Inches   = 10
	OffSideRail    table.Inches   = table.BallDiameter
)

// ContactLimit is how far from full a break is taught, by the ball that stands on
// the foot spot.
func ContactLimit(spot rack.Spot) table.Inches {
	if spot == rack.CentreOnSpot {
		return MaxCutContact
	}
	return MaxContact
}

func contactProblem(spot rack.Spot) string {
	if spot == rack.CentreOnSpot {
		return "the contact is at most 1.1 inches from full, about half of the head ball"
	}
	return "the contact is at most half an inch from full with the head ball on the spot; a cut break, up to 1.1 inches, is for the centre ball on the spot"
}

// OutermostCue is the greatest distance of the cue ball from the long string:
// a ball's width off the side rail.
func OutermostCue(k table.Kind) table.Inches { return k.Width()/2 - OffSideRail }

// The usual break (common practice, no source): the cue ball stands this share of
// the table's width out from the long string, near the side rail with room for a
// hand, and the speed, which stands in for "your own controlled speed" too, is a
// little under full strength.
const (
	UsualWidthShare           = 0.36
	UsualSpeed      table.Mph = 18
)

// StandardSetup is the setup a drill usually begins with on this kind of table: the
// practice rack, the cue ball near the side rail on the head string, a full
// hit, a touch of draw (common practice, no source).
func StandardSetup(g rack.Game, side table.Side, k table.Kind) Setup {
	return Setup{
		Game: g, Spot: g.Spots()[0], Order: g.PracticeOrder(side),
		Side: side, Wing: g.WingSlot(side),
		Cue: table.Place{X: side.Sign() * table.Inches(math.Round(float64(k.Width())*UsualWidthShare)), Y: k.HeadString()},
		Tip: -0.1, Speed: UsualSpeed,
	}
}

// Mirror returns the setup for the other side of the table. Mirroring twice is
// the identity.
func (s Setup) Mirror() Setup {
	m := s
	m.Order = s.Order.Mirror(s.Game)
	m.Side = s.Side.Mirror()
	m.Wing = s.Wing.Mirror()
	m.Cue = s.Cue.Mirror()
	m.Contact = table.FlipSign(s.Contact)
	m.Spin = table.FlipSign(s.Spin)
	return m
}

// ForSide returns the setup the right way round for a student who breaks from side.
func (s Setup) ForSide(side table.Side) Setup {
	if s.Side == side {
		return s
	}
	return s.Mirror()
}

// Rounded brings every part to the grain in which setups are told apart: a
// hundredth of an inch, of a radius and of a mile an hour.
func (s Setup) Rounded() Setup {
	s.Cue.X, s.Cue.Y = hundredth(s.Cue.X), hundredth(s.Cue.Y)
	s.Contact = hundredth(s.Contact)
	s.Tip, s.Spin = hundredth(s.Tip), hundredth(s.Spin)
	s.Speed = hundredth(s.Speed)
	return s
}

func hundredth[T ~float64](v T) T {
	return T(math.Round(float64(v)*100)/100) + 0 // + 0 turns -0 into 0
}

// CarryToKind carries the setup to another kind of table: the place across as a
// fraction of the width, the distance behind the head string likewise, kept
// within the limits.
func (s Setup) CarryToKind(from, to table.Kind) Setup {
	if from.Length() == to.Length() {
		return s
	}
	scale := to.Length() / from.Length()
	edge := OutermostCue(to)
	s.Cue.X = min(max(s.Cue.X*scale, -edge), edge)
	behind := min((from.HeadString()-s.Cue.Y)*scale, FurthestBehind)
	s.Cue.Y = to.HeadString() - behind
	return s.Rounded()
}

// SpeedTolerance is how far two sets' speeds may be apart and still count as
// the same setup: half a notch, since a notch is 1 mph.
const SpeedTolerance table.Mph = 0.6

// SameAs reports whether breaks under both setups may be pooled: equal in every
// part at the grain of Rounded, the speeds within SpeedTolerance or unknown in
// one of them.
func (s Setup) SameAs(o Setup) bool {
	a, b := s.Rounded(), o.Rounded()
	apart := math.Abs(float64(a.Speed - b.Speed))
	if a.Speed != 0 && b.Speed != 0 && apart > float64(SpeedTolerance) {
		return false
	}
	a.Speed, b.Speed = 0, 0
	return a == b
}

// HeadBall returns the head ball: the one in the head slot.
func (s Setup) HeadBall() rack.Ball {
	b, _ := s.Order.BallAt(s.Game, rack.HeadSlot)
	return b
}

// Check says what in the setup cannot be broken with on this kind of table.
// Field names are the break log's columns.
func (s Setup) Check(k table.Kind) error {
	var p Problems
	s.checkRack(&p)
	s.checkCue(k, &p)
	s.checkStroke(&p)
	return p.Err()
}

func (s Setup) checkRack(p *Problems) {
	if err := s.Order.Check(s.Game); err != nil {
		p.Add("rack", err.Error())
	}
	known := false
	for _, spot := range s.Game.Spots() {
		known = known || spot == s.Spot
	}
	if !known {
		p.Add("spot", fmt.Sprintf("%s is not racked with %q on the foot spot", s.Game.Words(), s.Spot))
	}
	if s.Wing != s.Game.WingSlot(table.Left) && s.Wing != s.Game.WingSlot(table.Right) {
		p.Add("wing", fmt.Sprintf("slot %q: the wing slots of %s are %s and %s", s.Wing, s.Game.Words(),
			s.Game.WingSlot(table.Left), s.Game.WingSlot(table.Right)))
	}
	if s.Side != table.Left && s.Side != table.Right {
		p.Add("side", "the break side is left or right")
	}
}

func (s Setup) checkCue(k table.Kind, p *Problems) {
	edge := OutermostCue(k)
	switch x := s.Cue.X; {
	case !(x >= -edge && x <= edge):
		p.Add("cue_x", fmt.Sprintf("the cue ball stands from %s to %s inches from the long string on this table", -edge, edge))
	case x*s.Side.Sign() < 0:
		p.Add("cue_x", fmt.Sprintf("a break from the %s has the cue ball on the %s of the long string", s.Side, s.Side))
	}
	if behind := k.HeadString() - s.Cue.Y; !(behind >= 0 && behind <= FurthestBehind) {
		p.Add("cue_y", fmt.Sprintf("the cue ball stands on the head string or up to %s inches behind it: from %s to %s inches from the head rail",
			FurthestBehind, k.HeadString()-FurthestBehind, k.HeadString()))
	}
}

func (s Setup) checkStroke(p *Problems) {
	if !withinLimit(s.Contact, ContactLimit(s.Spot)) {
		p.Add("contact", contactProblem(s.Spot))
	}
	if !withinLimit(s.Tip, MaxTip) {
		p.Add("tip", "the tip strikes at most half a radius above or below centre: further out is a miscue")
	}
	if !withinLimit(s.Spin, MaxSpin) {
		p.Add("spin", "side spin is at most 0.3 of a radius on a break")
	}
	if s.Speed != 0 && !(s.Speed >= SlowestBreak && s.Speed <= FastestBreak) {
		p.Add("speed", fmt.Sprintf("break speeds from %s to %s mph are taught; leave it empty for your own controlled speed", SlowestBreak, FastestBreak))
	}
}

// withinLimit is false for NaN.
func withinLimit[T ~float64](v, limit T) bool { return v >= -limit && v <= limit }
