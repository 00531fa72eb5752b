package advice

import (
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// danger: balls that leave the table come before everything else, and are the
// one pattern spoken of before there are eight breaks.
var dangerRule = patternRule{
	Rule: Rule{
		Name: RuleDanger, Number: "1",
		Title:     "Balls off the table",
		Pattern:   "The cue ball or object balls leave the table; two in twenty is enough.",
		Answer:    "A notch less speed, two or three when it happens often; the cue level; the tip no higher than centre.",
		LineMeans: "share of breaks in which a ball leaves the table",
		Source:    UsualPractice,
		StepUnit:  "mph",
		Numbers:   Numbers{On: true, Line: 0.05, Certainty: 0.85, Onward: 0.85, Step: 1, MinBreaks: 1},
	},
	observe: func(l *analysis, n Numbers) observation {
		return l.currentRecord().observeFlyingBalls(n)
	},
	proposeChanges: func(l *analysis, n Numbers, s observation) []proposedChange {
		notches := 1.0
		switch rate := float64(s.count) / float64(s.of); {
		case rate >= 0.3:
			notches = 3
		case rate >= 0.15:
			notches = 2
		}
		// From well above the ordinary, most of the way back to it at once.
		above := min(measureMisfit(l.currentSetup(), l.kind).speed, 5)
		slower := l.raiseSpeed(-max(n.Step*notches, above), reasonPlain)
		if l.currentSetup().Tip >= highTip {
			return []proposedChange{l.raiseTip(-float64(l.currentSetup().Tip), reasonPlain), slower}
		}
		if l.currentSetup().Tip > 0 {
			return []proposedChange{slower, l.raiseTip(-float64(l.currentSetup().Tip), reasonAtLimit)}
		}
		return []proposedChange{slower}
	},
}

// countDangerSetups counts the setups under which balls flew often enough to speak
// of: the third time is one for the coach.
func (l *analysis) countDangerSetups() int {
	times := 0
	for _, t := range l.records {
		if l.ballsFlewOften(t) {
			times++
		}
	}
	return times
}

// ballsFlewOften reports whether balls flew often enough under a setup to speak of.
func (l *analysis) ballsFlewOften(t *setupRecord) bool {
	n := l.rules.numbersOf(dangerRule.Rule)
	return t.observeFlyingBalls(n).certainty >= n.Certainty
}

// From fastBreak on, or under a tip from highTip on, the first ball that flies is
// spoken of (common practice, no source).
const (
	fastBreak table.Mph            = 21
	highTip   drill.RadiusFraction = 0.2
)

// observeFlyingBalls counts the breaks under a setup in which a ball flew; one can fly from
// anybody.
func (t *setupRecord) observeFlyingBalls(n Numbers) observation {
	s := observeShare(t.tally.off, t.tally.breaks, n.Line)
	switch forceful := t.setup.Speed >= fastBreak || t.setup.Tip >= highTip; {
	case s.count > 0 && forceful:
		s.certainty = 1
	case s.count < 2:
		s.certainty = 0
	}
	return s
}
