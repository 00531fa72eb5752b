package advice

// dry: a break that pockets nothing though the wing ball was close is a matter
// of the rack and the gear, not of the stroke.
var dry = rule{
	Rule: Rule{
		Name: RuleDry, Number: "15",
		Title:     "Dry breaks",
		Pattern:   "Nothing falls, though the wing ball is near.",
		Answer:    "A checklist, not a change: the rack tight, the head ball on its spot, clean balls, clean cloth.",
		LineMeans: "share of breaks that pocket nothing",
		Source:    "common practice, no source",
		Numbers:   Numbers{On: true, Line: 0.4, Certainty: 0.9, Onward: 0.9, MinBreaks: fewest},
	},
	look: func(l *lesson, n Numbers) sight {
		return share(l.seen().dry, l.seen().breaks, n.Line)
	},
}
