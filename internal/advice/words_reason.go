package advice

import "breakwright/internal/say"

// chosenFinding is the pattern that asks for the change.
func (w adviceWriter) chosenFinding() say.Statement {
	return findingStatement(w.decision.chosenRule.Name, w.decision.chosenObservation, w.analysis)
}

// ruleReason returns the reason of a change.
func (w adviceWriter) ruleReason(c proposedChange) say.Statement {
	statement := say.Statement{Kind: say.Because, Parts: []say.Statement{w.chosenFinding()}}
	switch c.reason {
	case reasonHalfBack:
		statement.About = say.WentTooFar
	case reasonOffFull:
		statement.About = "off full"
	case reasonThrown:
		statement.About = "thrown"
	case reasonTooFast:
		statement.About = "too fast"
	case reasonAtLimit:
		statement.About = "no room"
		if c.variable == VaryContact {
			statement.About = "no place"
		}
	case reasonSearch:
		statement.About = "search"
	default:
		statement.About = w.tradeReason()
	}
	return statement
}

// tradeReason names the trade's reason where it is short.
func (w adviceWriter) tradeReason() string {
	switch w.decision.chosenRule.Name {
	case RuleMissBalance:
		if w.decision.chosenObservation.towards == outward {
			return "too central"
		}
		return "too far out"
	case RuleForward, RuleFootScratch:
		return "more draw"
	case RuleBackTooFar, RuleHeadScratch:
		return "less draw"
	case RuleSideScratch, RuleThrownWide:
		return "met off full"
	case RuleUnsteady:
		return "control"
	case RuleWingUnseen:
		return "first look"
	case RuleNoShot:
		return "slot goes back"
	}
	return ""
}

// ruleExpectation says what to look for in the next ten.
func (w adviceWriter) ruleExpectation() say.Statement {
	switch name := w.decision.chosenRule.Name; name {
	case RuleDanger, RuleLimits, RuleWeak, RuleUnsteady, RuleNoShot, RuleHeadBall:
		return say.Statement{Kind: say.ExpectOf, About: string(name)}
	case RuleSideScratch, RuleHeadScratch, RuleFootScratch:
		return say.Statement{Kind: say.ExpectOf, About: "scratch"}
	case RuleForward, RuleBackTooFar, RuleThrownWide:
		return say.Statement{Kind: say.ExpectRate, About: "window", Rate: w.expectedRate(FactWindow)}
	}
	return say.Statement{Kind: say.ExpectRate, About: "wing", Rate: w.expectedRate(FactWing)}
}

// expectedRate is the rate to look for after one step: the target, or half of the way
// there while the present rate is far off.
func (w adviceWriter) expectedRate(fact RuleName) float64 {
	target := w.targets.Wing
	if fact == FactWindow {
		target = w.targets.Window
	}
	s := w.decision.observations[fact]
	if now := s.rateBelief().Mean(); now < target/2 {
		return (now + target) / 2
	}
	return target
}

// cautionOf is the safety line where force or height is involved.
func (w adviceWriter) cautionOf(c proposedChange) say.Statement {
	by := partDifference(c.variable, w.currentSetup(), c.to)
	caution := func(about string) say.Statement { return say.Statement{Kind: say.Caution, About: about} }
	switch {
	case w.decision.chosenRule.Name == RuleDanger && w.countDangerSetups() >= 3:
		return caution("third time")
	case w.decision.chosenRule.Name == RuleDanger:
		return caution("balls fly")
	case c.variable == VarySpeed && by > 0:
		return caution("more speed")
	case c.variable == VaryTip && by < 0:
		return caution("low tip")
	}
	return say.Statement{}
}

// undoReason says that the last change hurt, or that a setup tried before it was better.
func (w adviceWriter) undoReason(m pastChange) say.Statement {
	kind, by := say.HurtLast, w.decision.undoneMeasure
	if !w.isLastChange(m) {
		kind = say.WasBetter
	}
	return say.Statement{
		Kind: kind, About: by.name, Count: by.count(&m.from.tally), Of: by.of(&m.from.tally),
		Since: by.count(&m.after), OfSince: by.of(&m.after),
	}
}

// expectBefore says what there was before the last change.
func (w adviceWriter) expectBefore(m pastChange) say.Statement {
	by := w.decision.undoneMeasure
	return say.Statement{Kind: say.ExpectBefore, About: by.name, Count: by.count(&m.from.tally), Of: by.of(&m.from.tally)}
}
