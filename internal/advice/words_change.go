package advice

import (
	"breakwright/internal/drill"
	"breakwright/internal/say"
)

// writePrescription writes the change that was decided on.
func (w adviceWriter) writePrescription() *Prescription {
	c := *w.decision.change
	p := &Prescription{Variable: c.variable, Unit: unitOfVariable(c.variable), Rule: RuleFollowUp}
	p.From, p.To = w.partValue(c.variable, w.currentSetup()), w.partValue(c.variable, c.to)
	var why say.Statement
	switch undone := w.decision.undoneChange; {
	case undone != nil:
		why, p.ExpectStatement = w.undoReason(*undone), w.expectBefore(*undone)
	case w.decision.cause != "":
		p.Rule = w.decision.chosenRule.Name
		looked := w.expectGain(c)
		p.HelpP, p.LookFor = trustInHelp*w.decision.helps, &looked
		why, p.ExpectStatement, p.CautionStatement = w.beliefReason(c), looked.statement(), w.cautionOf(c)
	default:
		p.Rule = w.decision.chosenRule.Name
		why, p.ExpectStatement, p.CautionStatement = w.ruleReason(c), w.ruleExpectation(), w.cautionOf(c)
	}
	p.ReasonStatement = say.Statement{Kind: say.Together, Parts: []say.Statement{w.changeStatement(c), why}}
	return w.withTexts(p)
}

// withTexts writes what is said, as the student is told it.
func (w adviceWriter) withTexts(p *Prescription) *Prescription {
	p.Reason, p.Expect, p.Caution = w.plainText(p.ReasonStatement), w.plainText(p.ExpectStatement), w.plainText(p.CautionStatement)
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

// partValue returns one part of a setup as the student's own log writes it.
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

// changeStatement says what to do and how far.
func (w adviceWriter) changeStatement(c proposedChange) say.Statement {
	leftFrame := adviceWriter{analysis: w.analysis}
	from, to := leftFrame.partValue(c.variable, w.currentSetup()).Number, leftFrame.partValue(c.variable, c.to).Number
	statement := say.Statement{Kind: say.DoChange, Part: string(c.variable), From: from, To: to, By: partDifference(c.variable, w.currentSetup(), c.to)}
	switch c.variable {
	case VaryPlace:
		statement.Diamond = float64(w.kind.DiamondSpacing())
	case VaryRack:
		statement.Order = w.partValue(VaryRack, c.to).Text
	case VarySpeed:
		statement.Yes = w.speedUnknown
	}
	return statement
}
