package advice

import "breakwright/internal/say"

// What the adviser says is composed as data in this file and its neighbours named
// words; package say makes the sentences of it. Never more certain than the data.

// asTold writes a statement as the student is told it. The log of breaks is in
// inches, and so is this.
func asTold(s say.Statement) string { return s.Text(say.Reader{}) }

// standingCautions are shown with every drill.
var standingCautions = []string{
	"Warm up first, and rest between sets. Stop at any pain in back, shoulder or wrist.",
	"Nobody stands at the foot end, or beside the table in line with the break.",
	"Balls can fly: a level cue, a speed you control. Minors break with an adult there.",
	"Full-power breaks are for a few sets, not for all evening. This is coaching help, no medical advice.",
}

// adviceWriter says one decision, for a student on one side.
type adviceWriter struct {
	*analysis
	decision decision
	// mirror says that the student breaks from the right: numbers that point
	// left or right are turned, sentences speak of the break side.
	mirror bool
}

func newAdviceWriter(l *analysis, d decision, mirror bool) adviceWriter {
	return adviceWriter{l, d, mirror}
}

// countPlain are the two plain counts of the present setup.
func (w adviceWriter) countPlain(k say.StatementKind) say.Statement {
	t := w.currentTally()
	return say.Statement{Kind: k, Count: t.wingMade, Of: t.breaks, Since: t.cue.inWindow, OfSince: t.breaks}
}
