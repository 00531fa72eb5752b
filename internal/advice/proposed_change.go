package advice

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// proposedChange is one part of the setup changed, in the left frame. Every change is
// made by a method of analysis that keeps it within the limits; one that has no
// room left leads to the present setup.
type proposedChange struct {
	variable Variable
	to       drill.Setup
	// reason is why it is offered, for the words, when the same change answers
	// a pattern in more than one way.
	reason changeReason
}

// changeReason tells apart the ways one rule can answer.
type changeReason string

const (
	reasonPlain       changeReason = ""
	reasonAtLimit     changeReason = "at the limit"      // the first choice has no room left
	reasonOffFull     changeReason = "off full"          // the contact was already off full
	reasonHalfBack    changeReason = "half back"         // the last step went too far
	reasonTooFast     changeReason = "fast already"      // the speed is the likelier cause
	reasonTipOrdinary changeReason = "tip is ordinary"   // so it is not the tip
	reasonSearch      changeReason = "search"            // the place search chose it
	reasonFirstLook   changeReason = "first look inward" // nothing is known yet
	reasonThrown      changeReason = "cue ball thrown"   // its ends point to the contact
)

// partDifference returns how far a numeric part moved: positive out, right, up, faster.
func partDifference(v Variable, from, to drill.Setup) float64 {
	switch v {
	case VaryPlace:
		return float64(distanceOut(to) - distanceOut(from))
	case VaryContact:
		return float64(to.Contact - from.Contact)
	case VaryTip:
		return float64(to.Tip - from.Tip)
	case VarySpin:
		return float64(to.Spin - from.Spin)
	case VarySpeed:
		return float64(to.Speed - from.Speed)
	}
	return 0
}

// dropIfNegligible lets a change through that moves the way it was meant to, by enough to be
// told. At a limit, or past one, it leaves the setup as it is.
func (l *analysis) dropIfNegligible(by float64, c proposedChange) proposedChange {
	if partDifference(c.variable, l.currentSetup(), c.to)*math.Copysign(1, by) < smallestChanges[c.variable] {
		c.to = l.currentSetup()
	}
	return c
}

// smallestChanges is the least change of each part that is worth telling.
var smallestChanges = map[Variable]float64{
	VaryPlace: 1, VaryContact: 0.05, VaryTip: 0.05, VarySpeed: smallestSpeedChange,
}

// moveCueBallOut moves the cue ball by so many whole inches, out when positive.
func (l *analysis) moveCueBallOut(by float64, why changeReason) proposedChange {
	s := l.currentSetup()
	to := min(max(distanceOut(s)+table.Inches(by), 0), l.outermost())
	// The limit lies between whole inches; a place is told in halves.
	to = table.Inches(math.Floor(float64(to)*2) / 2)
	s.Cue.X = table.FlipSign(to)
	return l.dropIfNegligible(by, proposedChange{VaryPlace, s.Rounded(), why})
}

// outermost is how far out the cue ball may be told to stand: to the edge of what is
// taught, or of the room's break box.
func (l *analysis) outermost() table.Inches {
	if box := l.house.BreakBox; box > 0 {
		return min(box, outermostDistance(l.kind))
	}
	return outermostDistance(l.kind)
}

// shiftContact changes the contact, to the right when positive.
func (l *analysis) shiftContact(by float64, why changeReason) proposedChange {
	s := l.currentSetup()
	s.Contact = roundToTenth(clampMagnitude(s.Contact+table.Inches(by), drill.ContactLimit(s.Spot)))
	return l.dropIfNegligible(by, proposedChange{VaryContact, s.Rounded(), why})
}

// bringContactFuller brings the contact toward full by at most so much, and never past it.
func (l *analysis) bringContactFuller(by float64, why changeReason) proposedChange {
	c := float64(l.currentSetup().Contact)
	return l.shiftContact(-math.Copysign(min(by, math.Abs(c)), c), why)
}

// raiseTip strikes higher, lower when negative.
func (l *analysis) raiseTip(by float64, why changeReason) proposedChange {
	s := l.currentSetup()
	s.Tip = roundToTenth(clampMagnitude(s.Tip+drill.RadiusFraction(by), drill.MaxTip-0.1))
	return l.dropIfNegligible(by, proposedChange{VaryTip, s.Rounded(), why})
}

// raiseSpeed asks for more speed, less when negative, told in half miles an hour
// and never less of a change than asked for.
func (l *analysis) raiseSpeed(by float64, why changeReason) proposedChange {
	s := l.currentSetup()
	halves := float64(s.Speed+table.Mph(by)) * 2
	to := table.Mph(math.Ceil(halves) / 2)
	if by < 0 {
		to = table.Mph(math.Floor(halves) / 2)
	}
	s.Speed = min(max(to, drill.SlowestBreak), drill.FastestBreak)
	return l.dropIfNegligible(by, proposedChange{VarySpeed, s.Rounded(), why})
}

// swapBalls exchanges the balls of two slots; ok is false when the rack forbids it.
func (l *analysis) swapBalls(a, b rack.Slot) (c proposedChange, ok bool) {
	s := l.currentSetup()
	order, err := s.Order.SwapSlots(s.Game, a, b)
	s.Order = order
	return proposedChange{VaryRack, s, reasonPlain}, err == nil
}

// replaceNonFinite puts the ordinary in place of what is no number.
func replaceNonFinite(s drill.Setup, k table.Kind) drill.Setup {
	s.Cue.X = finiteOr(s.Cue.X, -ordinaryPlace*k.Width())
	s.Cue.Y = finiteOr(s.Cue.Y, k.HeadString())
	s.Contact, s.Tip, s.Spin = finiteOr(s.Contact, 0), finiteOr(s.Tip, ordinaryTip), finiteOr(s.Spin, 0)
	s.Speed = finiteOr(s.Speed, ordinarySpeed)
	return s
}

// finiteOr returns v, or the other value where v is no number.
func finiteOr[T ~float64](v, otherwise T) T {
	if math.IsNaN(float64(v - v)) {
		return otherwise
	}
	return v
}

func clampMagnitude[T ~float64](v, limit T) T { return min(max(v, -limit), limit) }

// roundToTenth rounds to the tenths in which contact and tip are told.
func roundToTenth[T ~float64](v T) T { return T(math.Round(float64(v)*10)/10) + 0 }

// withinLimits brings a setup to what may be asked for on this kind of table: the
// nearest setup inside the taught limits. A record of the past may lie outside.
func withinLimits(s drill.Setup, k table.Kind) drill.Setup {
	s = replaceNonFinite(s, k)
	s.Cue.X = min(max(s.Cue.X, -outermostDistance(k)), 0)
	s.Cue.Y = min(max(s.Cue.Y, k.HeadString()-drill.FurthestBehind), k.HeadString())
	s.Contact = clampMagnitude(s.Contact, drill.ContactLimit(s.Spot))
	s.Tip = clampMagnitude(s.Tip, drill.MaxTip)
	s.Spin = clampMagnitude(s.Spin, drill.MaxSpin)
	if s.Speed == 0 {
		s.Speed = ordinarySpeed
	}
	s.Speed = min(max(s.Speed, drill.SlowestBreak), drill.FastestBreak)
	return s.Rounded()
}
