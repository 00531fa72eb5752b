package rules

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"breakwright/internal/advice"
	"breakwright/internal/closing"
	"breakwright/internal/drill"
	"breakwright/web/page"
	"breakwright/web/sheet"
)

// The fields of a rule's form; the numbers are named as the adviser names them.
const (
	fieldRule      = "rule"
	fieldRevision  = "revision"
	fieldOn        = "on"
	fieldLine      = "line"
	fieldCertainty = "certainty"
	fieldOnward    = "onward"
	fieldStep      = "step"
	fieldMinBreaks = "min_breaks"
)

// formOf fills the form with a rule's numbers.
func formOf(rule advice.Rule, n advice.Numbers, revision int) *page.Form {
	return page.NewForm(map[string]string{
		fieldRule: string(rule.Name), fieldRevision: strconv.Itoa(revision), fieldOn: onOff(n.On),
		fieldLine: percent(n.Line), fieldCertainty: percent(n.Certainty), fieldOnward: percent(n.Onward),
		fieldStep: decimal(n.Step), fieldMinBreaks: strconv.Itoa(n.MinBreaks),
	})
}

// readNumbers reads a rule's numbers from its form. What cannot be set is as
// the rule comes.
func readNumbers(form *page.Form, rule advice.Rule) advice.Numbers {
	n, may := rule.Numbers, closing.Settable(rule)
	if may.On {
		n.On = form.Text(fieldOn) == onOff(true)
		if !n.On && form.Text(fieldOn) != onOff(false) {
			form.Refuse(fieldOn, "choose on or off")
		}
	}
	readPercent(form, fieldLine, may.Line, &n.Line)
	readPercent(form, fieldCertainty, may.Certainty, &n.Certainty)
	readPercent(form, fieldOnward, may.Onward, &n.Onward)
	if may.Step {
		n.Step = form.Number(fieldStep, "write the step as a number, for example "+decimal(rule.Numbers.Step))
	}
	if may.MinBreaks {
		n.MinBreaks = form.Whole(fieldMinBreaks, "write a whole number of breaks, for example "+strconv.Itoa(rule.Numbers.MinBreaks))
	}
	if form.OK() {
		takeProblems(form, closing.Check(rule, n))
	}
	return n
}

func readPercent(form *page.Form, field string, may bool, into *float64) {
	if may {
		*into = hundredth(form.Number(field, "write a number of percent, for example "+percent(*into))) / 100
	}
}

// takeProblems puts the adviser's words beside this page's fields, one a field.
func takeProblems(form *page.Form, err error) {
	problems, _ := err.(drill.Problems)
	for _, problem := range problems {
		_, field, _ := strings.Cut(problem.Field, ".")
		if form.Error(field) == "" {
			form.Refuse(field, problem.Says)
		}
	}
}

// readRevision reads the revision that the page was shown with; what was spoilt
// is older than all.
func readRevision(form *page.Form) int {
	n, err := strconv.Atoi(form.Text(fieldRevision))
	if err != nil {
		return -1
	}
	return n
}

// fieldsOf lists the number fields that a rule has.
func fieldsOf(rule advice.Rule) []page.Field {
	may, comes := closing.Settable(rule), rule.Numbers
	var fields []page.Field
	add := func(may bool, f page.Field) {
		if may {
			f.Short, f.Fill = true, "off"
			fields = append(fields, f)
		}
	}
	add(may.Line, page.Field{
		Name: fieldLine, Label: lineLabel(rule) + ", percent", Mode: "decimal",
		Hint: sheet.Capital(rule.LineMeans) + ". From 0 to below 100; it comes with " + percent(comes.Line) + ".",
	})
	add(may.Certainty, page.Field{
		Name: fieldCertainty, Label: "Certainty, percent", Mode: "decimal",
		Hint: "How sure it must be to speak. Above 50, below 100; it comes with " + percent(comes.Certainty) + ". Lower speaks sooner, and more often of what was only luck.",
	})
	add(may.Onward, page.Field{
		Name: fieldOnward, Label: "Certainty to go on, percent", Mode: "decimal",
		Hint: "How sure it must be to go on the way the last change went. Above 50; it comes with " + percent(comes.Onward) + ".",
	})
	add(may.Step, page.Field{
		Name: fieldStep, Label: "Step, " + rule.StepUnit, Mode: "decimal",
		Hint: fmt.Sprintf("How far one change goes. Above 0, at most %s; it comes with %s.", decimal(mostStep(rule)), decimal(comes.Step)),
	})
	add(may.MinBreaks, page.Field{
		Name: fieldMinBreaks, Label: "Fewest breaks", Mode: "numeric",
		Hint: fmt.Sprintf("How many breaks under a setup before it speaks. From 0 to 500; it comes with %d.", comes.MinBreaks),
	})
	return fields
}

// mostStep is the adviser's limit of a step: three times the standard one.
func mostStep(rule advice.Rule) float64 { return hundredth(3 * rule.Numbers.Step) }

func hundredth(v float64) float64 { return math.Round(v*100) / 100 }
