package advice

import "breakwright/internal/say"

// writeFollowUp says how the latest change turned out; nil before the first.
func (w adviceWriter) writeFollowUp() *FollowUp {
	m, any := w.lastChange()
	if !any {
		return nil
	}
	how, by, effect := m.judgeOutcome(outcomeCertainty)
	f := &FollowUp{
		Variable: m.variable, From: w.partValue(m.variable, m.from.setup), To: w.partValue(m.variable, m.to.setup),
		Measure:     by.name,
		CountBefore: by.count(&m.from.tally), OfBefore: by.of(&m.from.tally),
		CountAfter: by.count(&m.after), OfAfter: by.of(&m.after),
		HelpedP: effect.Helped, NoDifferenceP: effect.NoDifference, HurtP: effect.Hurt, SameP: m.probSame(by),
		Outcome: how,
	}
	f.Statement = say.Statement{
		Kind: say.Followed, About: f.Measure, Count: f.CountBefore, Of: f.OfBefore, Since: f.CountAfter, OfSince: f.OfAfter,
		Others: []string{outcomeName(f)},
	}
	f.Says = w.plainText(f.Statement)
	return f
}

// outcomeName names how the change turned out; too early is not the same as not
// enough to tell.
func outcomeName(f *FollowUp) string {
	if f.Outcome == InTrial && f.OfAfter < fewestBreaks {
		return "too early"
	}
	return string(f.Outcome)
}

// writeAnswer is the answer in one or two sentences.
func (w adviceWriter) writeAnswer() say.Statement {
	switch {
	case w.decision.coachSetup != nil:
		return say.Statement{Kind: say.CoachChose, Yes: w.decision.coachSetup.SameAs(w.currentSetup())}
	case w.decision.change != nil:
		return w.changeStatement(*w.decision.change)
	case w.decision.exhaustedRule != nil:
		return say.Statement{Kind: say.NoRoomLeft, About: w.decision.exhaustedRule.Title}
	case w.decision.setupIsGood:
		return say.Statement{Kind: say.SetupWorks}
	case w.decision.setupIsLevel:
		return say.Statement{Kind: say.NothingElse}
	}
	return w.writeTooEarly()
}

// writeTooEarly says how many more breaks, and why not now.
func (w adviceWriter) writeTooEarly() say.Statement {
	t := w.currentTally()
	switch {
	case t.breaks < fewestBreaks:
		return say.Statement{Kind: say.TooEarly, Count: t.breaks}
	case w.decision.checkRack:
		return say.Statement{Kind: say.CheckRack, Count: t.wingMade, Of: t.watched}
	case w.decision.missesTarget:
		return w.countPlain(say.NoCause)
	}
	statement := w.countPlain(say.NotEnough)
	if w.losesCueBall() {
		statement.Parts = []say.Statement{{Kind: say.Sign, About: "cue scratch", Count: t.cue.countScratches(), Of: t.breaks}}
	}
	return statement
}

// writeProgress is what is asked for when the setup stays; nil when a coach has to
// look first.
func (w adviceWriter) writeProgress() *Prescription {
	if w.decision.exhaustedRule != nil {
		return nil
	}
	p := &Prescription{Rule: RuleProgress, Variable: VaryNone, ReasonStatement: w.countPlain(say.KeptSetup)}
	p.ExpectStatement.Kind = say.SameAgain
	if w.decision.setupIsGood {
		p.ExpectStatement.Kind = say.AimHigher
	}
	return w.withTexts(p)
}

// listChecks lists what to record or to check in the next set.
func (w adviceWriter) listChecks() []say.Statement {
	t, seen := w.currentTally(), w.decision.observations
	missed := t.watched - t.wingMade
	var checks []say.Statement
	addCheckWhere := func(holds bool, about string) {
		if holds {
			checks = append(checks, say.Statement{Kind: say.Check, About: about})
		}
	}
	addCheckWhere(t.off > 0 && (w.decision.chosenRule == nil || w.decision.chosenRule.Name != RuleDanger), "ball flew")
	if m, found := w.measuredSpeed(); found && (w.decision.change == nil || w.decision.change.variable != VarySpeed) {
		m.Yes = true
		checks = append(checks, m)
	}
	telling, found := w.chooseTellingFact()
	if found {
		checks = append(checks, telling)
	}
	addCheckWhere(missed >= 3 && 2*t.misses.unseen > missed && telling.About != "misses", "record misses")
	addCheckWhere(w.needsCuePath() && t.cue.lostFoot >= 2 && telling.About != "cue path", "watch cue ball")
	addCheckWhere(seen[RuleNoShot].certainty >= 0.8 && len(t.slots) == 0 && telling.About != "low balls", "record low balls")
	about, look := w.checkOfRack()
	addCheckWhere(look, about)
	addCheckWhere(w.areMissesBalanced(), "misses balanced")
	return checks
}

// checkOfRack says why the rack is to be looked at, by what speaks most for it; it is asked
// for once.
func (w adviceWriter) checkOfRack() (about string, look bool) {
	seen := w.decision.observations
	switch {
	case w.rackMayBeLoose():
		return "rack may be loose", true
	case seen[RuleDry].certainty >= w.rules.numbersOf(dryBreakRule.Rule).Certainty && !w.areMissesOneSided():
		return "rack after dry", true
	}
	return "rack after weak", seen[RuleWeak].certainty >= 0.8
}

// areMissesBalanced reports whether enough misses are known, on both sides alike, and the
// wing ball is still likely under its target.
func (w adviceWriter) areMissesBalanced() bool {
	t, m := w.currentTally(), w.directedMisses()
	even := min(m.ProbLong(), m.ProbShort()) >= 0.25
	return w.decision.change == nil && m.Total() >= 10 && even &&
		certaintyBelow(t.wingMade, t.watched, w.targets.Wing) >= 0.8
}

func (w adviceWriter) areMissesOneSided() bool {
	m := w.directedMisses()
	return isMostlyOneWay(m.Long, m.Total()) || isMostlyOneWay(m.Short, m.Total())
}
