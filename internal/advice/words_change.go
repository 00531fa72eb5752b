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
		return "send the cue ball " + contactShift(by, c.to.Contact)
	case VaryTip:
		return "strike " + higherOrLower(by) + " by " + tenths(by) + " of a radius, " + roughly(by) + ": at " + tipWords(c.to.Tip)
	case VarySpeed:
		return w.speedShift(by, c.to.Speed)
	case VarySpin:
		return "use less side spin: at most " + decimal(math.Abs(float64(c.to.Spin))) + " of a radius"
	case VaryRack:
		return "rack " + w.value(VaryRack, c.to).Text
	}
	return "leave the setup alone"
}

// contactShift says where the cue ball is sent at the head ball.
func contactShift(by float64, to table.Inches) string {
	if to == 0 {
		return "at a full hit on the head ball again"
	}
	way, side := "toward", "on the break side"
	if by > 0 {
		way = "away from"
	}
	if to > 0 {
		side = "on the far side"
	}
	far := decimal(math.Round(math.Abs(by)*100) / 100)
	return far + " of an inch " + way + " the break side: " + decimal(table.Inches(math.Abs(float64(to)))) + " of an inch off full, " + side
}

// speedShift says how hard to break.
func (w words) speedShift(by float64, to table.Mph) string {
	harder := "softer"
	if by > 0 {
		harder = "a little harder"
	}
	if w.ownSpeed {
		return "break " + harder + " than your own speed: about " + decimal(to) + " mph"
	}
	return "break " + harder + ": " + decimal(to) + " mph instead of " + decimal(w.setup().Speed)
}

// tenths writes a distance of tip height.
func tenths(by float64) string {
	switch n := math.Round(math.Abs(by) * 10); n {
	case 1:
		return "a tenth"
	default:
		return count(int(n)) + " tenths"
	}
}

// roughly gives the same distance in inches: a tenth of a radius is 0.11 in.
func roughly(by float64) string {
	switch n := math.Round(math.Abs(by) * 10); {
	case n <= 1:
		return "about a tenth of an inch"
	case n == 2:
		return "about a quarter of an inch"
	case n == 3:
		return "about a third of an inch"
	}
	return "about half an inch"
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
