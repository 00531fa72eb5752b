package advice

import (
	"cmp"
	"slices"

	"breakwright/internal/evidence"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

// What the adviser says is composed as data in this file and its neighbours named
// words; package say makes the sentences of it. Never more certain than the data.

// plainText writes a statement without a left or right as the student is told it. The
// log of breaks is in inches, and so is this.
func plainText(s say.Statement) string { return s.Text(say.Reader{}) }

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
	// mirror says that the student breaks from the right: what points left or right is
	// turned.
	mirror bool
}

func newAdviceWriter(l *analysis, d decision, mirror bool) adviceWriter {
	return adviceWriter{l, d, mirror}
}

// plainText writes a statement as the student is told it, with left and right as they
// break.
func (w adviceWriter) plainText(s say.Statement) string {
	side := table.Left
	if w.mirror {
		side = table.Right
	}
	return s.Text(say.Reader{}.BreakingFrom(side))
}

// countPlain are the two plain counts of the present setup.
func (w adviceWriter) countPlain(k say.StatementKind) say.Statement {
	t := w.currentTally()
	return say.Statement{Kind: k, Count: t.wingMade, Of: t.watched, Since: t.cue.inWindow, OfSince: t.breaks}
}

// writePlaces says what the places tried tell; nil before there are two.
func (w adviceWriter) writePlaces() *Places {
	sets := w.placeSets()
	if len(sets) < 2 {
		return nil
	}
	side := table.Inches(-1)
	if w.mirror {
		side = 1
	}
	p := &Places{Level: intervalLevel}
	for _, s := range sets {
		p.Tried = append(p.Tried, TriedPlace{X: side*table.Inches(s.Place) + 0, Made: s.Made, Breaks: s.Tried})
	}
	b := w.placeBelief()
	for i, place := range b.Places {
		band := b.CentralInterval(i, p.Level)
		p.Curve = append(p.Curve, CurvePoint{
			X: side*table.Inches(place) + 0, Mean: b.Mean[i],
			Low: min(band.Low, b.Mean[i]), High: max(band.High, b.Mean[i]), // nearly all belief may be in one rate
		})
	}
	best := b.Places[b.BestPlace()]
	p.Best, p.Known = side*table.Inches(best)+0, b.IsSettled(searchSettled)
	p.Statement = say.Statement{Kind: say.BestPlace, To: best, Diamond: float64(w.kind.DiamondSpacing()), Yes: p.Known}
	byPlace := func(a, b evidence.PlaceSet) int { return cmp.Compare(a.Place, b.Place) }
	switch {
	case best < slices.MinFunc(sets, byPlace).Place:
		p.Statement.About = "further in"
	case best > slices.MaxFunc(sets, byPlace).Place:
		p.Statement.About = "further out"
	case !slices.ContainsFunc(sets, func(s evidence.PlaceSet) bool { return s.Place == best }):
		p.Statement.Way = 1
	}
	if box := float64(w.house.BreakBox); box > 0 && best > box {
		outside := say.Statement{Kind: say.Caution, About: "outside the box", To: box}
		p.Statement = say.Statement{Kind: say.Together, Parts: []say.Statement{p.Statement, outside}}
	}
	p.Says = w.plainText(p.Statement)
	return p
}

// writeBreakCard is the student's own break for this table, once the verdict is that it
// is good or that many breaks have shown nothing better.
func (w adviceWriter) writeBreakCard(tableName string) *BreakCard {
	if !w.decision.setupIsGood && !w.decision.setupIsLevel || w.decision.exhaustedRule != nil {
		return nil
	}
	s, t := withinLimits(w.currentSetup(), w.kind), w.currentTally()
	if w.mirror {
		s = s.Mirror()
	}
	statement := w.countPlain(say.CardCount)
	return &BreakCard{
		Table: tableName, Setup: s,
		Wing:      rateOf(t.wingMade, t.watched),
		Window:    rateOf(t.cue.inWindow, t.breaks),
		Statement: statement,
		Says:      w.plainText(statement),
	}
}

func rateOf(made, tried int) Rate {
	f := observation{count: made, of: tried}.toFinding("")
	return Rate{Count: made, Of: tried, Rate: f.Rate, Low: f.Low, High: f.High}
}
