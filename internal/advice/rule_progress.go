package advice

// The rules that do not look for a fault. Their numbers are used by settle and
// by Start.

// progressRule is spoken when everything is good, certainly enough.
var progressRule = Rule{
	Name: RuleProgress, Number: "12",
	Title:     "Make it harder",
	Pattern:   "The wing ball and the cue ball both reach their targets, with certainty.",
	Answer:    "The setup stays: raise the target, or another table, tighter pockets, a shuffled rack, the other side. The break card is issued.",
	LineMeans: "the student's own targets are the lines",
	Source:    UsualPractice,
	Numbers:   Numbers{On: true, Certainty: 0.8, MinBreaks: 20},
}

// tooEarlyRule is spoken when nothing is sure enough. Line is how likely the
// breaks asked for should be to settle the question.
var tooEarlyRule = Rule{
	Name: RuleTooEarly, Number: "13",
	Title:     "Too early to tell",
	Pattern:   "No pattern is sure enough.",
	Answer:    "The same again, and how many more breaks would likely settle it.",
	LineMeans: "how likely the breaks asked for should settle the question",
	Source:    UsualPractice,
	Numbers:   Numbers{On: true, Line: 0.5, MinBreaks: 0},
}

// newTableRule is followed by Start.
var newTableRule = Rule{
	Name: RuleNewTable, Number: "14",
	Title:     "A new table",
	Pattern:   "The student has not broken on this table yet.",
	Answer:    "Start from the best setup on the nearest kind of table, the place as a fraction of the table's width. A tighter pocket lowers the target, not the place.",
	LineMeans: "",
	Source:    UsualPractice,
	Numbers:   Numbers{On: true, MinBreaks: 10},
}
