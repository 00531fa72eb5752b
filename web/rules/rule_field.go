package rules

import (
	"fmt"
	"strconv"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/say"
	"breakwright/internal/setreview"
	"breakwright/web/page"
)

// boundWords words what a number may be.
type boundWords struct{ line, certainty, onward, step, breaks string }

func newBoundWords(rule advice.Rule) boundWords {
	b := boundWords{
		line: "from 0 to below 100", certainty: "above 50, below 100", onward: "above 50, and no more than it takes to begin",
		step: "above 0, at most " + formatDecimal(largestStep(rule)), breaks: "from 0 to " + strconv.Itoa(10*drill.MaxBreaks),
	}
	if rule.Name == advice.RuleDanger {
		b.line = "at most " + percentNumber(setreview.LaxestDangerLine)
		b.certainty = "above 50, at most " + percentNumber(setreview.LaxestDangerCertainty)
		b.onward = b.certainty
		b.step = fmt.Sprintf("from %s to %s", formatDecimal(setreview.LeastDangerStepMph), formatDecimal(largestStep(rule)))
		b.breaks = fmt.Sprintf("at most %d", setreview.LaxestDangerBreaks)
	}
	return b
}

// safetyWords says why one rule has a floor.
func safetyWords() string {
	return fmt.Sprintf("A ball that leaves the table can hurt somebody, and that is not a matter of taste. "+
		"So this rule cannot be switched off, and it has a floor: a line of at most %s, at most %s sure, within %d breaks. Stricter is always possible.",
		percentWords(setreview.LaxestDangerLine), percentWords(setreview.LaxestDangerCertainty), setreview.LaxestDangerBreaks)
}

// ruleFields lists the number fields that a rule has.
func ruleFields(rule advice.Rule) []page.Field {
	may, bounds, comes := setreview.ListSettable(rule), newBoundWords(rule), rule.Numbers
	var fields []page.Field
	add := func(may bool, f page.Field, says, bound, comes string) {
		if may {
			f.Short, f.Autocomplete = true, "off"
			f.Hint = says + ". " + say.Capitalize(bound) + "; standard " + comes + "."
			fields = append(fields, f)
		}
	}
	add(may.Line, page.Field{Name: fieldLine, Label: lineLabel(rule) + ", percent", InputMode: "decimal"},
		say.Capitalize(rule.LineMeans), bounds.line, percentNumber(comes.Line))
	add(may.Certainty, page.Field{Name: fieldCertainty, Label: "Certainty, percent", InputMode: "decimal"},
		"How sure it must be to speak. Lower speaks sooner, and more often of what was only luck", bounds.certainty, percentNumber(comes.Certainty))
	add(may.Onward, page.Field{Name: fieldOnward, Label: "Certainty to repeat a change, percent", InputMode: "decimal"},
		"How sure it must be to change the same again, the same way", bounds.onward, percentNumber(comes.Onward))
	step, says := "Step, "+stepUnitWords(rule), "How far one change goes"
	if isWorth(rule) {
		step, says = "Points", "What it counts beside the other parts of a break"
	}
	add(may.Step, page.Field{Name: fieldStep, Label: step, InputMode: "decimal"}, says, bounds.step, formatDecimal(comes.Step))
	add(may.MinBreaks, page.Field{Name: fieldMinBreaks, Label: "Fewest breaks", InputMode: "numeric"},
		"How many breaks under a setup before it speaks", bounds.breaks, strconv.Itoa(comes.MinBreaks))
	return fields
}

// largestStep is the adviser's limit of a step: three times the standard one.
func largestStep(rule advice.Rule) float64 { return roundHundredth(3 * rule.Numbers.Step) }
