package advice

// followUp is the check of the latest change. It is not one of the rules that
// look at a pattern, but it has numbers like them.
var followUpRule = Rule{
	Name: RuleFollowUp, Number: "",
	Title:     "The last change hurt",
	Pattern:   "After the latest change the wing ball, or the cue ball in the window, is clearly worse than before.",
	Answer:    "Back to the setup before it. It takes more certainty to go back than it took to go on, so that a student is not sent to and fro.",
	LineMeans: "smallest difference worth talking about",
	Source:    "common practice, no source",
	Numbers:   Numbers{On: true, Line: worth, Certainty: 0.98, Onward: 0.98, MinBreaks: 18},
}

// undoCertainty is at least that of every rule: a change is not undone on less
// evidence than it was made on.
func (l *lesson) undoCertainty() float64 {
	need := l.rules.of(followUpRule).Certainty
	for i := range rules {
		if n := l.rules.of(rules[i].Rule); n.On && rules[i].answer != nil {
			need = max(need, n.Certainty)
		}
	}
	return need
}

// hearFollowUp proposes the way back when the latest change hurt.
func (l *lesson) hearFollowUp(d *decision) {
	n := l.rules.of(followUpRule)
	m, any := l.lastMove()
	if !any || !n.On || d.change != nil || l.seen().breaks < n.MinBreaks || l.silenced(RuleFollowUp) {
		return
	}
	if m.vary == VaryNone || l.madeForSafety(m) { // nothing single, or nothing to undo
		return
	}
	if how, _ := m.outcome(l.undoCertainty()); how != Hurt {
		return
	}
	back := change{vary: m.vary, to: within(m.from.setup, l.kind)}
	if back.to != l.setup() {
		d.change, d.back = &back, &m
	}
}

// madeForSafety says whether a move took speed off because balls flew. It is not
// taken back, whatever it cost.
func (l *lesson) madeForSafety(m move) bool {
	return m.vary == VarySpeed && m.by < 0 && l.flew(m.from)
}
