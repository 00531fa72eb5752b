package advice

import (
	"math"
	"slices"

	"breakwright/internal/belief"
	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

// mostReasons is how many counts a reason names at most.
const mostReasons = 2

// beliefReason names the counts that speak most for the cause, and what else it could
// be.
func (w adviceWriter) beliefReason(c proposedChange) say.Statement {
	statement := say.Statement{Kind: say.Weighed, Parts: w.listReasons(c), About: w.causeName(c), Others: w.listRivals()}
	if len(statement.Parts) == 0 {
		statement.Parts = []say.Statement{{Kind: say.AllTogether}}
	}
	return statement
}

// reasonCause is the cause whose evidence is told: the likeliest that is one.
func (w adviceWriter) reasonCause() belief.Cause {
	for _, share := range w.decision.causes {
		if share.Cause != belief.Nothing {
			return share.Cause
		}
	}
	return w.decision.cause
}

// listReasons counts what was seen under the present setup: the speed that was measured,
// the patterns that ask for the same, then the signs, the weightiest first.
func (w adviceWriter) listReasons(c proposedChange) []say.Statement {
	var reasons []say.Statement
	if m, found := w.measuredSpeed(); found && c.variable == VarySpeed && (m.To > m.From) == (c.to.Speed < w.currentSetup().Speed) {
		reasons = append(reasons, m)
	}
	named := map[string]bool{}
	add := func(group string, reason say.Statement) {
		if !named[group] && len(reasons) < mostReasons {
			named[group] = true
			reasons = append(reasons, reason)
		}
	}
	for i := range patternRules {
		if r := &patternRules[i]; groupOfPattern[r.Name] != "" && w.asksForTheSame(r, c) {
			add(groupOfPattern[r.Name], findingStatement(r.Name, w.decision.observations[r.Name], w.analysis))
		}
	}
	for _, s := range w.weighSigns(c, w.handsOf(w.reasonCause())) {
		add(s.group, say.Statement{Kind: say.Sign, About: s.name, Count: s.shown, Of: s.of})
	}
	return reasons
}

// groupOfPattern names the patterns whose count a coach would name for a change before any
// sign, each with the group of the signs that would say it twice.
var groupOfPattern = map[RuleName]string{
	RuleSideScratch: "scratch", RuleHeadScratch: "scratch", RuleFootScratch: "scratch",
	RuleForward: "path", RuleBackTooFar: "path", RuleMissBalance: "miss",
}

// asksForTheSame reports whether a pattern is sure, and would by itself change the same part
// the same way.
func (w adviceWriter) asksForTheSame(r *patternRule, c proposedChange) bool {
	s, n := w.decision.observations[r.Name], w.rules.numbersOf(r.Rule)
	if !n.On || s.certainty < n.Certainty || !w.holdsFor(r.Name) {
		return false
	}
	way := partDifference(c.variable, w.currentSetup(), c.to)
	return slices.ContainsFunc(r.proposeChanges(w.analysis, n, s), func(asked proposedChange) bool {
		return asked.variable == c.variable && way*partDifference(c.variable, w.currentSetup(), asked.to) > 0
	})
}

// measuredSpeed says that another speed than was asked was measured in the last set, where
// it clearly was.
func (w adviceWriter) measuredSpeed() (statement say.Statement, found bool) {
	played, asked := w.currentRecord().played, w.currentSetup().Speed
	breaks := played[len(played)-1].Breaks
	median, of := drill.MedianSpeed(breaks)
	if w.speedUnknown || of == 0 || math.Abs(float64(median-asked)) < float64(clearlyNotAsked) {
		return say.Statement{}, false
	}
	return say.Statement{Kind: say.MeasuredSpeed, From: float64(asked), To: float64(median), Count: of, Of: len(breaks)}, true
}

// clearlyNotAsked is from what difference on a measured speed is not the one that was
// asked: more than a speed meter is wrong by (common practice, no source).
const clearlyNotAsked table.Mph = 1.5

// handsOf returns the causes whose hands speak for one: hands with nothing amiss do so
// too where it is the setup that is wrong for them.
func (w adviceWriter) handsOf(cause belief.Cause) []belief.Cause {
	if w.decision.shareOf(cause) > w.hands.ShareOf(cause) {
		return []belief.Cause{cause, belief.Nothing}
	}
	return []belief.Cause{cause}
}

// causeName names what the change answers: a part that is amiss, a line that is made
// up for, or what a sound stroke wants of this setup.
func (w adviceWriter) causeName(c proposedChange) string {
	turnsWing := c.variable == VaryPlace || c.variable == VaryContact
	cause := w.reasonCause()
	switch {
	case cause == w.decision.cause:
	case turnsWing && cause == belief.Contact:
		return "contact made up for"
	case turnsWing && cause == belief.Place:
		return "line brought back"
	default:
		return "whichever"
	}
	way := "less"
	if partDifference(c.variable, w.currentSetup(), c.to) > 0 {
		way = "more"
	}
	if w.hands.ShareOf(belief.Nothing) > w.hands.ShareOf(cause) {
		way = "wants " + way
	}
	return string(c.variable) + " " + way
}

// rivalShare is how likely another cause must still be to be named.
const rivalShare = 0.2

// listRivals names what else it could be.
func (w adviceWriter) listRivals() []string {
	var named []string
	for _, share := range w.decision.causes {
		if share.Share >= rivalShare && say.NamesRival(string(share.Cause)) &&
			share.Cause != w.decision.cause && share.Cause != w.reasonCause() {
			named = append(named, string(share.Cause))
		}
	}
	return named
}

// expectGain returns what to look for: the part of a break that should better most on
// what was seen so far; nothing in particular when none should, clearly.
func (w adviceWriter) expectGain(c proposedChange) Expectation {
	now, t := w.hands.Expect(w.kind, w.currentSetup()), w.currentTally()
	then := now.Towards(w.hands.Expect(w.kind, c.to), changeComes)
	worth := w.weights
	least, e := 0.03, Expectation{}
	consider := func(what string, weight float64, shown, of int, to float64) {
		if of == 0 {
			return
		}
		if gain := weight * (to - float64(shown)/float64(of)); gain > least {
			least, e = gain, Expectation{what, to, shown, of}
		}
	}
	consider(ExpectDown, worth.Down, t.clean, t.watched, then.Down)
	consider(ExpectWing, worth.Wing, t.wingMade, t.watched, then.Wing)
	consider(ExpectScratch, worth.Scratch, t.cue.countScratches(), t.breaks, then.Scratch)
	consider(ExpectWeak, worth.Weak, t.weak, t.weakKnown, then.Weak)
	open, of := t.countOpenShots()
	consider(ExpectShot, worth.OpenShot, open, of, then.OpenShot)
	consider(ExpectMiddle, worth.Middle, t.cue.countMiddle(w.kind), t.breaks, then.Middle)
	return e
}

// changeComes is how much of an expected change of a part comes after a change of setup that
// is told: more than all of it, for the mean over all hands has those in it whose fault is
// less or another. (Measured on computed students, alone and in a class: internal/rehearsal.)
const changeComes = 1.4

// statement says what to look for, beside what there was.
func (e Expectation) statement() say.Statement {
	if e.Of == 0 {
		return say.Statement{Kind: say.ExpectSteadier}
	}
	return say.Statement{Kind: say.ExpectRate, About: e.What, Rate: e.Share, Count: e.Shown, Of: e.Of}
}

// rackMayBeLoose reports whether the rack should be looked at before the next set.
func (w adviceWriter) rackMayBeLoose() bool {
	if w.decision.checkRack {
		return true
	}
	return w.hands != nil && w.currentTally().breaks >= fewestBreaks && w.decision.shareOf(belief.LooseRack) >= rivalShare
}
