package advice

// danger: balls that leave the table come before everything else, and are the
// one pattern spoken of before there are eight breaks.
var danger = rule{
	Rule: Rule{
		Name: RuleDanger, Number: "1",
		Title:     "Balls off the table",
		Pattern:   "The cue ball or object balls leave the table; two in twenty is enough.",
		Answer:    "A notch less speed, two or three when it happens often; the cue level; the tip no higher than centre.",
		LineMeans: "share of breaks in which a ball leaves the table",
		Source:    "common practice, no source",
		StepUnit:  "mph",
		Numbers:   Numbers{On: true, Line: 0.05, Certainty: 0.85, Onward: 0.85, Step: 1, MinBreaks: 1},
	},
	look: func(l *lesson, n Numbers) sight {
		return l.now().flying(n)
	},
	answer: func(l *lesson, n Numbers, s sight) []change {
		notches := 1.0
		switch rate := float64(s.count) / float64(s.of); {
		case rate >= 0.3:
			notches = 3
		case rate >= 0.15:
			notches = 2
		}
		// From well above the ordinary, most of the way back to it at once.
		above := min(misfitOf(l.setup(), l.kind).speed, 5)
		slower := l.speedUp(-max(n.Step*notches, above), plainly)
		if l.setup().Tip > 0 {
			return []change{slower, l.raiseTip(-float64(l.setup().Tip), atLimit)}
		}
		return []change{slower}
	},
}

// dangerTimes counts the setups under which balls flew often enough to speak
// of: the third time is one for the coach.
func (l *lesson) dangerTimes() int {
	times := 0
	for _, t := range l.trials {
		if l.flew(t) {
			times++
		}
	}
	return times
}

// flew says whether balls flew often enough under a setup to speak of.
func (l *lesson) flew(t *trial) bool {
	n := l.rules.of(danger.Rule)
	return t.flying(n).certainty >= n.Certainty
}

// flying counts the breaks under a setup in which a ball flew; one can fly from
// anybody.
func (t *trial) flying(n Numbers) sight {
	s := share(t.seen.off, t.seen.breaks, n.Line)
	if s.count < 2 {
		s.certainty = 0
	}
	return s
}
