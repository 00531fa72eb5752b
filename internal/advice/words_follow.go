package advice

import "strings"

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
		CountBefore: by.count(&m.from.tally), OfBefore: m.from.tally.breaks,
		CountAfter: by.count(&m.to.tally), OfAfter: m.to.tally.breaks,
		HelpedP: effect.Helped, NoDifferenceP: effect.NoDifference, HurtP: effect.Hurt,
		Outcome: how,
	}
	counts := capitalizeFirst(by.name) + ": " + countOfTotal(f.CountBefore, f.OfBefore) + " before the change, " +
		countOfTotal(f.CountAfter, f.OfAfter) + " since. "
	f.Says = counts + describeOutcome(f)
	return f
}

func describeOutcome(f *FollowUp) string {
	switch f.Outcome {
	case Helped:
		return "It helped, as far as these breaks can tell."
	case Hurt:
		return "It got worse."
	case NoDifference:
		return "No real difference."
	}
	if f.OfAfter < fewestBreaks {
		return "Too early to tell."
	}
	lean := "Not enough to tell: luck alone can do that."
	if f.CountBefore == 0 && f.CountAfter == 0 {
		return lean
	}
	return strings.TrimSpace(lean)
}

// writeAnswer is the answer in one or two sentences.
func (w adviceWriter) writeAnswer(v Verdict) string {
	switch {
	case w.decision.coachSetup != nil:
		return "Your coach chose the next setup."
	case w.decision.change != nil:
		c := *w.decision.change
		return capitalizeFirst(w.describeChange(c)) + "."
	case w.decision.exhaustedRule != nil:
		return "Keep the setup for now. " + w.decision.exhaustedRule.Title + ": what the rules know to change has no room left, so your coach should look."
	case w.decision.setupIsGood:
		return "Leave the setup alone: it works. Make it harder."
	case w.decision.setupIsLevel:
		return "Leave the setup alone. Nothing points to a change."
	}
	return w.writeTooEarly()
}

// writeTooEarly says how many more breaks, and why not now.
func (w adviceWriter) writeTooEarly() string {
	t := w.currentTally()
	if w.decision.missesTarget {
		return "A target is not met, and no single cause shows: the wing ball in " + countOfTotal(t.wingMade, t.breaks) +
			", the cue ball in the window in " + countOfTotal(t.cue.inWindow, t.breaks) +
			". The same setup again; your coach should look."
	}
	again := "The same setup again: ten more."
	if t.breaks < fewestBreaks {
		return "Too early to tell: " + breaksSoFar(t.breaks) + " so far. " + again
	}
	if w.decision.checkRack {
		return "Check the rack before every break, then the same ten again. Loose balls in the rack would explain what was seen as well as any stroke would: the wing ball in " +
			countOfTotal(t.wingMade, t.breaks) + "."
	}
	return "Not enough to tell yet: the wing ball in " + countOfTotal(t.wingMade, t.breaks) +
		", the cue ball in the window in " + countOfTotal(t.cue.inWindow, t.breaks) + ". " + again
}

// breaksSoFar counts breaks in words.
func breaksSoFar(n int) string {
	if n == 1 {
		return "one break"
	}
	return countInWords(n) + " breaks"
}

// writeProgress is what is asked for when the setup stays; nil when a coach has to
// look first.
func (w adviceWriter) writeProgress() *Prescription {
	if w.decision.exhaustedRule != nil {
		return nil
	}
	t := w.currentTally()
	p := &Prescription{Rule: RuleProgress, Variable: VaryNone}
	counts := "The wing ball fell in " + countOfTotal(t.wingMade, t.breaks) + " and the cue ball stopped in the window in " +
		countOfTotal(t.cue.inWindow, t.breaks) + "."
	p.Reason = "Leave the setup alone. " + counts
	if w.decision.setupIsGood {
		p.Expect = "Make it harder: a higher target, another table, tighter pockets, a shuffled rack, or the other side."
	} else {
		p.Expect = "Look for the same again; practise it, and raise the target when it holds."
	}
	return p
}

// listChecks lists what to record or to check in the next set.
func (w adviceWriter) listChecks() []string {
	var ask []string
	t := w.currentTally()
	if missed := t.breaks - t.wingMade; missed >= 3 && 2*t.misses.unseen > missed {
		ask = append(ask, "When the wing ball stays up, record what it met first: side rail, foot rail, another ball, or the jaws.")
	}
	if w.needsCuePath() && t.cue.lostFoot >= 2 {
		ask = append(ask, "Watch how the cue ball comes to the foot end: on through the rack, or back off the head rail. More draw answers one and makes the other worse.")
	}
	if s := w.decision.observations[RuleNoShot]; s.certainty >= 0.8 && len(t.slots) == 0 {
		ask = append(ask, "Record where the low balls stop, so that the rack can be planned.")
	}
	if s := w.decision.observations[RuleDry]; s.certainty >= w.rules.numbersOf(dryBreakRule.Rule).Certainty && !w.areMissesOneSided() {
		ask = append(ask, "Check the rack is tight, the head ball on its spot, balls and cloth clean.")
	}
	if s := w.decision.observations[RuleWeak]; s.certainty >= 0.8 {
		ask = append(ask, "Check that the rack is tight before each break.")
	}
	if w.rackMayBeLoose() {
		ask = append(ask, "Check the rack before every break, and note it: a gap that can hardly be seen costs more than half of the wing balls.")
	}
	if w.areMissesBalanced() {
		ask = append(ask, "The misses are balanced: the place is right. Work on a square hit.")
	}
	return ask
}

// areMissesBalanced reports whether enough misses are known, on both sides alike, and the
// wing ball is still likely under its target.
func (w adviceWriter) areMissesBalanced() bool {
	t, m := w.currentTally(), w.directedMisses()
	even := min(m.ProbLong(), m.ProbShort()) >= 0.25
	return w.decision.change == nil && m.Total() >= 10 && even &&
		certaintyBelow(t.wingMade, t.breaks, w.targets.Wing) >= 0.8
}

func (w adviceWriter) areMissesOneSided() bool {
	m := w.directedMisses()
	return isMostlyOneWay(m.Long, m.Total()) || isMostlyOneWay(m.Short, m.Total())
}
