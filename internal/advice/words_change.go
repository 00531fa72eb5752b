package advice

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// prescription writes the change that was decided on.
func (w words) prescription() *Prescription {
	c := *w.d.change
	p := &Prescription{Variable: c.vary, Unit: unitOf(c.vary), Rule: RuleFollowUp}
	p.From, p.To = w.value(c.vary, w.setup()), w.value(c.vary, c.to)
	do := sentence(w.doing(c)) + "."
	if w.d.back != nil {
		p.Reason = do + " " + w.whyBack(*w.d.back)
		p.Expect = "Look for what you had before: " + w.hadBefore(*w.d.back) + "."
		return p
	}
	p.Rule = w.d.spoke.Name
	p.Reason = do + " " + w.why(c)
	p.Expect = w.expect(c)
	p.Caution = w.caution(c)
	return p
}

func unitOf(v Variable) string {
	switch v {
	case VaryPlace, VaryContact:
		return "in"
	case VaryTip, VarySpin:
		return "radius"
	case VarySpeed:
		return "mph"
	case VaryRack:
		return "slots"
	}
	return ""
}

// value gives one part of a setup as the student's own log writes it.
func (w words) value(v Variable, s drill.Setup) Value {
	if w.mirror {
		s = s.Mirror()
	}
	switch v {
	case VaryPlace:
		return Number(s.Cue.X)
	case VaryContact:
		return Number(s.Contact)
	case VaryTip:
		return Number(s.Tip)
	case VarySpin:
		return Number(s.Spin)
	case VarySpeed:
		return Number(s.Speed)
	case VaryRack:
		return Text(s.Order.String())
	}
	return Value{}
}

// doing says what to do and how far, without a capital or a full stop.
func (w words) doing(c change) string {
	by := moved(c.vary, w.setup(), c.to)
	switch c.vary {
	case VaryPlace:
		if by > 0 {
			return "move the cue ball " + inches(by) + " out, toward the side rail"
		}
		return "move the cue ball " + inches(-by) + " in, toward the head spot"
	case VaryContact:
		return "send the cue ball " + contactShift(by) + ": " + contactWords(c.to.Contact)
	case VaryTip:
		return "strike " + tenths(by) + " of a radius " + higherOrLower(by) + ": " + tipWords(c.to.Tip)
	case VarySpeed:
		if by < 0 {
			return "break softer: " + decimal(c.to.Speed) + " mph instead of " + decimal(w.setup().Speed)
		}
		return "break a little harder: " + decimal(c.to.Speed) + " mph instead of " + decimal(w.setup().Speed)
	case VarySpin:
		return "change the side spin to " + decimal(w.value(VarySpin, c.to).Number) + " of a radius"
	case VaryRack:
		return "rack " + w.value(VaryRack, c.to).Text
	}
	return "leave the setup alone"
}

func contactShift(by float64) string {
	far := decimal(math.Round(math.Abs(by)*100)/100) + " of an inch"
	if by < 0 {
		return far + " further toward the break side"
	}
	return far + " further away from the break side"
}

func contactWords(c table.Inches) string {
	switch {
	case c == 0:
		return "a full hit on the head ball"
	case c < 0:
		return decimal(-c) + " of an inch off full, toward the break side"
	}
	return decimal(c) + " of an inch off full, away from the break side"
}

// tenths writes a distance of tip height: a tenth of a radius is about a tenth
// of an inch.
func tenths(by float64) string {
	switch n := math.Round(math.Abs(by) * 10); n {
	case 1:
		return "a tenth"
	default:
		return count(int(n)) + " tenths"
	}
}

func higherOrLower(by float64) string {
	if by > 0 {
		return "higher"
	}
	return "lower"
}

func tipWords(tip drill.Fraction) string {
	switch {
	case tip == 0:
		return "the centre of the cue ball"
	case tip < 0:
		return decimal(-tip) + " of a radius below centre"
	}
	return decimal(tip) + " of a radius above centre"
}
