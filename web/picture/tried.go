package picture

// TriedView is what was tried, one setup a row and the newest first, on one scale:
// what each row changed, how often the ball fell since, and what came of it.
type TriedView struct {
	ID, Label string
	Rows      []TriedRow
}

// TriedRow is a setup with its rate. Words say what was changed to come to it.
type TriedRow struct {
	When, Words string
	Rate        RateView
	Outcome     TriedOutcome
	// OutcomeWords say the outcome: "it helped"; "" where there is none.
	OutcomeWords string
}

// TriedOutcome is the shape that an outcome is drawn as.
type TriedOutcome string

// The outcomes.
const (
	TriedHelped TriedOutcome = "helped"
	TriedSame   TriedOutcome = "same"
	TriedHurt   TriedOutcome = "hurt"
	TriedOpen   TriedOutcome = "open" // not known yet
	TriedNone   TriedOutcome = ""     // nothing was judged
)

// scaleShares are the marks of the scale below the rows.
var scaleShares = []struct {
	share float64
	words string
}{{0, "0"}, {0.2, "2"}, {0.4, "4"}, {0.6, "6"}, {0.8, "8"}, {1, "10"}}

// rates are the bars, for the legend.
func (t TriedView) rates() []RateView {
	all := make([]RateView, len(t.Rows))
	for i, row := range t.Rows {
		all[i] = row.Rate
	}
	return all
}

// scaleAnchor keeps the first and the last number inside the picture.
func scaleAnchor(i int) string {
	switch i {
	case 0:
		return "start"
	case len(scaleShares) - 1:
		return "end"
	}
	return "middle"
}
