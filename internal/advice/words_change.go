package advice

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// writePrescription writes the change that was decided on.
func (w adviceWriter) writePrescription() *Prescription {
	c := *w.decision.change
	p := &Prescription{Variable: c.variable, Unit: unitOfVariable(c.variable), Rule: RuleFollowUp}
	p.From, p.To = w.partValue(c.variable, w.currentSetup()), w.partValue(c.variable, c.to)
	do := capitalizeFirst(w.describeChange(c)) + "."
	if w.decision.undoneChange != nil {
		p.Reason = do + " " + w.writeUndoReason(*w.decision.undoneChange)
		p.Expect = "Look for what you had before: " + w.describeBefore(*w.decision.undoneChange) + "."
		return p
	}
	p.Rule = w.decision.chosenRule.Name
	if w.decision.cause != "" {
		p.Reason = do + " " + w.writeBeliefReason(c)
		p.Expect = w.writeBeliefExpectation(c)
	} else {
		p.Reason = do + " " + w.writeReason(c)
		p.Expect = w.writeExpectation(c)
	}
	p.Caution = w.writeCaution(c)
	return p
}

func unitOfVariable(v Variable) string {
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

// partValue gives one part of a setup as the student's own log writes it.
func (w adviceWriter) partValue(v Variable, s drill.Setup) Value {
	if w.mirror {
		s = s.Mirror()
	}
	switch v {
	case VaryPlace:
		return NumberValue(s.Cue.X)
	case VaryContact:
		return NumberValue(s.Contact)
	case VaryTip:
		return NumberValue(s.Tip)
	case VarySpin:
		return NumberValue(s.Spin)
	case VarySpeed:
		return NumberValue(s.Speed)
	case VaryRack:
		return TextValue(s.Order.String())
	}
	return Value{}
}

// describeChange says what to do and how far, without a capital or a full stop.
func (w adviceWriter) describeChange(c proposedChange) string {
	by := partDifference(c.variable, w.currentSetup(), c.to)
	switch c.variable {
	case VaryPlace:
		if by > 0 {
			return "move the cue ball " + formatInches(by) + " out, toward the side rail"
		}
		return "move the cue ball " + formatInches(-by) + " in, toward the head spot"
	case VaryContact:
		return "send the cue ball " + describeContactShift(by, c.to.Contact)
	case VaryTip:
		return "strike " + higherOrLower(by) + " by " + formatTenths(by) + " of a radius, " + roughInches(by) + ": at " + describeTip(c.to.Tip)
	case VarySpeed:
		return w.describeSpeedShift(by, c.to.Speed)
	case VarySpin:
		return "use less side spin: at most " + formatDecimal(math.Abs(float64(c.to.Spin))) + " of a radius"
	case VaryRack:
		return "rack " + w.partValue(VaryRack, c.to).Text
	}
	return "leave the setup alone"
}

// describeContactShift says where the cue ball is sent at the head ball.
func describeContactShift(by float64, to table.Inches) string {
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
	far := formatDecimal(math.Round(math.Abs(by)*100) / 100)
	return far + " of an inch " + way + " the break side: " + formatDecimal(table.Inches(math.Abs(float64(to)))) + " of an inch off full, " + side
}

// describeSpeedShift says how hard to break.
func (w adviceWriter) describeSpeedShift(by float64, to table.Mph) string {
	harder := "softer"
	if by > 0 {
		harder = "a little harder"
	}
	if w.speedUnknown {
		return "break " + harder + " than your own speed: about " + formatDecimal(to) + " mph"
	}
	return "break " + harder + ": " + formatDecimal(to) + " mph instead of " + formatDecimal(w.currentSetup().Speed)
}

// formatTenths writes a distance of tip height.
func formatTenths(by float64) string {
	switch n := math.Round(math.Abs(by) * 10); n {
	case 1:
		return "a tenth"
	default:
		return countInWords(int(n)) + " tenths"
	}
}

// roughInches gives the same distance in inches: a tenth of a radius is 0.11 in.
func roughInches(by float64) string {
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

func describeTip(tip drill.RadiusFraction) string {
	switch {
	case tip == 0:
		return "the centre of the cue ball"
	case tip < 0:
		return formatDecimal(-tip) + " of a radius below centre"
	}
	return formatDecimal(tip) + " of a radius above centre"
}
