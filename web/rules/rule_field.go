package rules

import (
	"fmt"
	"strconv"

	"breakwright/internal/advice"
	"breakwright/internal/closing"
	"breakwright/internal/drill"
	"breakwright/web/page"
	"breakwright/web/sheet"
)

// bound words what a number may be.
type bound struct{ line, certainty, onward, step, breaks string }

func boundOf(rule advice.Rule) bound {
	b := bound{
		line: "from 0 to below 100", certainty: "above 50, below 100", onward: "above 50, and no more than it takes to begin",
		step: "above 0, at most " + decimal(mostStep(rule)), breaks: "from 0 to " + strconv.Itoa(10*drill.MaxBreaks),
	}
	if rule.Name == advice.RuleDanger {
		b.line = "at most " + percent(closing.LaxestDangerLine)
		b.certainty = "above 50, at most " + percent(closing.LaxestDangerCertainty)
		b.onward = b.certainty
		b.step = fmt.Sprintf("from %s to %s", decimal(closing.LeastDangerStepMph), decimal(mostStep(rule)))
		b.breaks = fmt.Sprintf("at most %d", closing.LaxestDangerBreaks)
	}
	return b
}

// safetyWords says why one rule has a floor.
func safetyWords() string {
	return fmt.Sprintf("A ball that leaves the table can hurt somebody, and that is not a matter of taste. "+
		"So this rule cannot be switched off, and it has a floor: a line of at most %s, at most %s sure, within %d breaks. Stricter is always possible.",
		inPercent(closing.LaxestDangerLine), inPercent(closing.LaxestDangerCertainty), closing.LaxestDangerBreaks)
}

// fieldsOf lists the number fields that a rule has.
func fieldsOf(rule advice.Rule) []page.Field {
	may, bounds, comes := closing.Settable(rule), boundOf(rule), rule.Numbers
	var fields []page.Field
	add := func(may bool, f page.Field, says, bound, comes string) {
		if may {
			f.Short, f.Fill = true, "off"
			f.Hint = says + ". " + sheet.Capital(bound) + "; it comes with " + comes + "."
			fields = append(fields, f)
		}
	}
	add(may.Line, page.Field{Name: fieldLine, Label: lineLabel(rule) + ", percent", Mode: "decimal"},
		sheet.Capital(rule.LineMeans), bounds.line, percent(comes.Line))
	add(may.Certainty, page.Field{Name: fieldCertainty, Label: "Certainty, percent", Mode: "decimal"},
		"How sure it must be to speak. Lower speaks sooner, and more often of what was only luck", bounds.certainty, percent(comes.Certainty))
	add(may.Onward, page.Field{Name: fieldOnward, Label: "Certainty to go on, percent", Mode: "decimal"},
		"How sure it must be to go on the way the last change went", bounds.onward, percent(comes.Onward))
	add(may.Step, page.Field{Name: fieldStep, Label: "Step, " + rule.StepUnit, Mode: "decimal"},
		"How far one change goes", bounds.step, decimal(comes.Step))
	add(may.MinBreaks, page.Field{Name: fieldMinBreaks, Label: "Fewest breaks", Mode: "numeric"},
		"How many breaks under a setup before it speaks", bounds.breaks, strconv.Itoa(comes.MinBreaks))
	return fields
}

// mostStep is the adviser's limit of a step: three times the standard one.
func mostStep(rule advice.Rule) float64 { return hundredth(3 * rule.Numbers.Step) }
