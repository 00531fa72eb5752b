package rules

import (
	"math"
	"strconv"
	"strings"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/setreview"
	"breakwright/web/page"
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

// newRuleForm fills the form with a rule's numbers.
func newRuleForm(rule advice.Rule, n advice.Numbers, revision int) *page.Form {
	return page.NewForm(map[string]string{
		fieldRule: string(rule.Name), fieldRevision: strconv.Itoa(revision), fieldOn: onOffWord(n.On),
		fieldLine: percentNumber(n.Line), fieldCertainty: percentNumber(n.Certainty), fieldOnward: percentNumber(n.Onward),
		fieldStep: formatDecimal(n.Step), fieldMinBreaks: strconv.Itoa(n.MinBreaks),
	})
}

// readNumbers reads a rule's numbers from its form. What cannot be set is as
// the rule comes.
func readNumbers(form *page.Form, rule advice.Rule) advice.Numbers {
	n, may := rule.Numbers, setreview.ListSettable(rule)
	if may.On {
		n.On = form.Text(fieldOn) == onOffWord(true)
		if !n.On && form.Text(fieldOn) != onOffWord(false) {
			form.Reject(fieldOn, "choose on or off")
		}
	}
	readPercent(form, fieldLine, may.Line, &n.Line)
	readPercent(form, fieldCertainty, may.Certainty, &n.Certainty)
	readPercent(form, fieldOnward, may.Onward, &n.Onward)
	if may.Step {
		n.Step = form.Number(fieldStep, "write a number, for example "+formatDecimal(rule.Numbers.Step))
	}
	if may.MinBreaks {
		n.MinBreaks = form.WholeNumber(fieldMinBreaks, "write a whole number of breaks, for example "+strconv.Itoa(rule.Numbers.MinBreaks))
	}
	if form.IsValid() {
		addProblems(form, setreview.CheckNumbers(rule, n))
	}
	return n
}

func readPercent(form *page.Form, field string, may bool, into *float64) {
	if may {
		*into = roundHundredth(form.Number(field, "write a number of percent, for example "+percentNumber(*into))) / 100
	}
}

// addProblems puts the adviser's words beside this page's fields, one a field.
func addProblems(form *page.Form, err error) {
	problems, _ := err.(drill.Problems)
	for _, problem := range problems {
		_, field, _ := strings.Cut(problem.Field, ".")
		if form.ErrorFor(field) == "" {
			form.Reject(field, problem.Message)
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

func roundHundredth(v float64) float64 { return math.Round(v*100) / 100 }
