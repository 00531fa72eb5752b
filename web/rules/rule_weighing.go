package rules

import (
	"breakwright/internal/advice"
	"breakwright/internal/belief"
	"breakwright/internal/say"
)

// causeRow is what may be amiss, with its answer and how often it was the likeliest.
type causeRow struct{ Name, Answer, LastMonth string }

// listCauses lists what the weighing knows of; hands with nothing amiss come last.
func listCauses(h ruleTally) []causeRow {
	var rows []causeRow
	for _, cause := range belief.Causes() {
		row := causeRow{Name: say.CauseName(string(cause)), Answer: say.CauseAnswer(string(cause))}
		if h.sets > 0 {
			row.LastMonth = say.CountOf(h.likeliestCount[string(cause)], h.sets, "set", "sets")
		}
		rows = append(rows, row)
	}
	return append(rows[1:], rows[0])
}

// worthRow is a part of what a break is worth.
type worthRow struct {
	Name, Title, Pattern, Points string
	Changed                      []string
	ChangePath                   string
}

func newWorthRow(part advice.Rule, n advice.Numbers) worthRow {
	return worthRow{
		Name: string(part.Name), Title: part.Title, Pattern: part.Pattern, Points: worthWords(part, n),
		Changed: changedNumbers(part, n), ChangePath: changePath(part.Name),
	}
}

// worthWords says what a part counts: "gives 1", "costs 0.3".
func worthWords(part advice.Rule, n advice.Numbers) string {
	return part.Answer + " " + formatDecimal(n.Step)
}

// isWorth reports whether something that can be set is a part of what a break is worth.
func isWorth(rule advice.Rule) bool { return rule.StepUnit == advice.WorthUnit }
