package advice

// followUp is the check of the latest change. It is not one of the rules that
// look at a pattern, but it has numbers like them.
var followUpRule = Rule{
	Name: RuleFollowUp, Number: "",
	Title:     "The last change hurt",
	Pattern:   "After the latest change the wing ball, or the cue ball in the window, is clearly worse than before.",
	Answer:    "Back to the setup before it. It takes more certainty to go back than it took to go on, so that a student is not sent to and fro.",
	LineMeans: "smallest difference worth talking about",
	Source:    UsualPractice,
	Numbers:   Numbers{On: true, Line: smallestEffect, Certainty: 0.98, MinBreaks: 10},
}

// undoCertainty is at least that of every rule: a change is not undone on less
// evidence than it was made on.
func (l *analysis) undoCertainty() float64 {
	need := l.rules.numbersOf(followUpRule).Certainty
	for i := range patternRules {
		if n := l.rules.numbersOf(patternRules[i].Rule); n.On && patternRules[i].proposeChanges != nil {
			need = max(need, n.Certainty)
		}
	}
	return need
}

// applyFollowUp proposes the way back when the latest change hurt, or when the setup
// has been walked away, step by step, from one that was clearly better.
func (l *analysis) applyFollowUp(d *decision) {
	n := l.rules.numbersOf(followUpRule)
	m, any := l.lastChange()
	if !any || !n.On || d.change != nil || l.currentTally().breaks < n.MinBreaks || l.isOverruled(RuleFollowUp) {
		return
	}
	how, by, _ := m.judgeOutcome(l.undoCertainty())
	if how != Hurt {
		if m, by, any = l.findBetterTried(); !any {
			return
		}
	}
	if l.isSafetyChange(m) {
		return
	}
	back := proposedChange{variable: m.variable, to: withinLimits(m.from.setup, l.kind)}
	if back.to != l.currentSetup() && back.to.InBox(l.house.BreakBox) {
		d.change, d.undoneChange, d.undoneMeasure = &back, &m, by
	}
}

// findBetterTried finds the setup tried before that differs from the present one in a
// single part and was surely better in what that part is about, as one change from
// there to here, with the measure that says so; of several, the one with the most good
// breaks.
func (l *analysis) findBetterTried() (best pastChange, by measure, found bool) {
	for _, r := range l.records {
		if r == l.currentRecord() || r.tally.breaks < fewestBreaks {
			continue
		}
		m := l.changeFrom(r)
		how, worse, _ := m.judgeOutcome(outcomeCertainty)
		if how != Hurt || l.isSafetyChange(m) {
			continue
		}
		if !found || shareOfGood(r) > shareOfGood(best.from) {
			best, by, found = m, worse, true
		}
	}
	return best, by, found
}

// changeFrom returns what changed from a setup tried before to the present one: the last
// change, or several taken as one, after which everything under the present setup came.
func (l *analysis) changeFrom(r *setupRecord) pastChange {
	if last, any := l.lastChange(); any && last.from == r && last.to == l.currentRecord() {
		return last
	}
	m := compareRecords(r, l.currentRecord())
	m.after = l.currentRecord().tally
	return m
}

func shareOfGood(r *setupRecord) float64 {
	return float64(r.tally.clean+r.tally.wingMade) / float64(max(1, r.tally.watched))
}

// isLastChange reports whether a change is the latest, and not several taken as one.
func (l *analysis) isLastChange(m pastChange) bool {
	last, any := l.lastChange()
	return any && last.from == m.from
}

// isSafetyChange reports whether a move took speed off because balls flew. It is not
// taken back, whatever it cost.
func (l *analysis) isSafetyChange(m pastChange) bool {
	return m.variable == VarySpeed && m.by < 0 && l.ballsFlewOften(m.from)
}
