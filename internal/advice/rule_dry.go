package advice

// dry: a break that pockets nothing though the wing ball was close is a matter
// of the rack and the gear, not of the stroke.
var dryBreakRule = patternRule{
	Rule: Rule{
		Name: RuleDry, Number: "15",
		Title:     "Dry breaks",
		Pattern:   "Nothing falls, though the wing ball is near.",
		Answer:    "A checklist, not a change: the rack tight, the head ball on its spot, clean balls, clean cloth.",
		LineMeans: "share of breaks that pocket nothing",
		Source:    UsualPractice,
		Numbers:   Numbers{On: true, Line: 0.4, Certainty: 0.9, MinBreaks: fewestBreaks},
	},
	observe: func(l *analysis, n Numbers) observation {
		return observeShare(l.currentTally().dry, l.currentTally().watched, n.Line)
	},
}
