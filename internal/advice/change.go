package advice

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// change is one part of the setup changed, in the left frame. Every change is
// made by a method of lesson that keeps it within the limits; one that has no
// room left leads to the present setup.
type change struct {
	vary Variable
	to   drill.Setup
	// after is why it is offered, for the words, when the same change answers
	// a pattern in more than one way.
	after reason
}

// reason tells apart the ways one rule can answer.
type reason string

const (
	plainly       reason = ""
	atLimit       reason = "at the limit"      // the first choice has no room left
	offFull       reason = "off full"          // the contact was already off full
	halfBack      reason = "half back"         // the last step went too far
	tooFast       reason = "fast already"      // the speed is the likelier cause
	tipIsOrdinary reason = "tip is ordinary"   // so it is not the tip
	search        reason = "search"            // the place search chose it
	firstLook     reason = "first look inward" // nothing is known yet
	thrown        reason = "cue ball thrown"   // its ends point to the contact
)

// moved gives how far a numeric part moved: positive out, right, up, faster.
func moved(v Variable, from, to drill.Setup) float64 {
	switch v {
	case VaryPlace:
		return float64(out(to) - out(from))
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

// only lets a change through that moves the way it was meant to, by enough to be
// told. At a limit, or past one, it leaves the setup as it is.
func (l *lesson) only(by float64, c change) change {
	if moved(c.vary, l.setup(), c.to)*math.Copysign(1, by) < smallest[c.vary] {
		c.to = l.setup()
	}
	return c
}

// smallest is the least change of each part that is worth telling.
var smallest = map[Variable]float64{
	VaryPlace: 1, VaryContact: 0.05, VaryTip: 0.05, VarySpeed: smallestNotch,
}

// moveOut moves the cue ball by so many whole inches, out when positive.
func (l *lesson) moveOut(by float64, why reason) change {
	s := l.setup()
	to := min(max(out(s)+table.Inches(by), 0), outmost(l.kind))
	// The limit lies between whole inches; a place is told in halves.
	to = table.Inches(math.Floor(float64(to)*2) / 2)
	s.Cue.X = table.Flip(to)
	return l.only(by, change{VaryPlace, s.Rounded(), why})
}

// shiftContact changes the contact, to the right when positive.
func (l *lesson) shiftContact(by float64, why reason) change {
	s := l.setup()
	s.Contact = tenth(clamp(s.Contact+table.Inches(by), drill.MaxContact))
	return l.only(by, change{VaryContact, s.Rounded(), why})
}

// fuller brings the contact toward full by at most so much, and never past it.
func (l *lesson) fuller(by float64, why reason) change {
	c := float64(l.setup().Contact)
	return l.shiftContact(-math.Copysign(min(by, math.Abs(c)), c), why)
}

// raiseTip strikes higher, lower when negative.
func (l *lesson) raiseTip(by float64, why reason) change {
	s := l.setup()
	s.Tip = tenth(clamp(s.Tip+drill.Fraction(by), drill.MaxTip-0.1))
	return l.only(by, change{VaryTip, s.Rounded(), why})
}

// speedUp asks for more speed, less when negative, told in half miles an hour
// and never less of a change than asked for.
func (l *lesson) speedUp(by float64, why reason) change {
	s := l.setup()
	halves := float64(s.Speed+table.Mph(by)) * 2
	to := table.Mph(math.Ceil(halves) / 2)
	if by < 0 {
		to = table.Mph(math.Floor(halves) / 2)
	}
	s.Speed = min(max(to, drill.SlowestBreak), drill.FastestBreak)
	return l.only(by, change{VarySpeed, s.Rounded(), why})
}

// swap exchanges the balls of two slots; ok is false when the rack forbids it.
func (l *lesson) swap(a, b rack.Slot) (c change, ok bool) {
	s := l.setup()
	order, err := s.Order.Swap(s.Game, a, b)
	s.Order = order
	return change{VaryRack, s, plainly}, err == nil
}

// finiteParts puts the ordinary in place of what is no number.
func finiteParts(s drill.Setup, k table.Kind) drill.Setup {
	s.Cue.X = finite(s.Cue.X, -ordinaryPlace*k.Width())
	s.Cue.Y = finite(s.Cue.Y, k.HeadString())
	s.Contact, s.Tip, s.Spin = finite(s.Contact, 0), finite(s.Tip, ordinaryTip), finite(s.Spin, 0)
	s.Speed = finite(s.Speed, ordinarySpeed)
	return s
}

// finite gives v, or the other value where v is no number.
func finite[T ~float64](v, otherwise T) T {
	if math.IsNaN(float64(v - v)) {
		return otherwise
	}
	return v
}

func clamp[T ~float64](v, limit T) T { return min(max(v, -limit), limit) }

// tenth rounds to the tenths in which contact and tip are told.
func tenth[T ~float64](v T) T { return T(math.Round(float64(v)*10)/10) + 0 }

// within brings a setup to what may be asked for on this kind of table: the
// nearest setup inside the taught limits. A record of the past may lie outside.
func within(s drill.Setup, k table.Kind) drill.Setup {
	s = finiteParts(s, k)
	s.Cue.X = min(max(s.Cue.X, -outmost(k)), 0)
	s.Cue.Y = min(max(s.Cue.Y, k.HeadString()-drill.FurthestBehind), k.HeadString())
	s.Contact = clamp(s.Contact, drill.MaxContact)
	s.Tip = clamp(s.Tip, drill.MaxTip)
	s.Spin = clamp(s.Spin, drill.MaxSpin)
	if s.Speed == 0 {
		s.Speed = ordinarySpeed
	}
	s.Speed = min(max(s.Speed, drill.SlowestBreak), drill.FastestBreak)
	return s.Rounded()
}
