package rules

import (
	"fmt"
	"strconv"
	"strings"

	"breakwright/internal/advice"
	"breakwright/internal/closing"
)

// percent writes a share as it is typed: "95", "97.5".
func percent(share float64) string { return decimal(hundredth(share * 100)) }

// inPercent writes a share as it is read; the sign stays with its number.
func inPercent(share float64) string { return percent(share) + "\u00a0%" }

func decimal(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// breaks writes "one break", "8 breaks".
func breaks(n int) string {
	if n == 1 {
		return "one break"
	}
	return strconv.Itoa(n) + " breaks"
}

// speaksWhen says in sentences when a rule speaks by its numbers.
func speaksWhen(rule advice.Rule, n advice.Numbers) string {
	if !n.On {
		return "Switched off: it never speaks."
	}
	sure := "at least " + inPercent(n.Certainty) + " sure"
	switch rule.Name {
	case advice.RuleLimits:
		return "Speaks at once, whatever the breaks were. Nothing is taught beyond the limits, so there is nothing to set."
	case advice.RuleNewTable:
		return "Needs " + breaks(n.MinBreaks) + " under a setup before it carries it over. There is nothing to set: a drill is carried to the table in proportion."
	case advice.RuleTooEarly:
		return "Asks for the number of breaks that settles the question with a chance of " + inPercent(n.Line) + "."
	case advice.RuleFollowUp:
		return from(n) + ", when it is " + sure + " that the change did harm, and never less sure than any other rule has to be."
	case advice.RuleProgress:
		return from(n) + ", when it is " + sure + " that both targets are reached."
	case advice.RuleWingUnseen:
		return from(n) + ", when it is " + sure + " that the wing ball falls less often than " + inPercent(n.Line) + " of its target."
	}
	return from(n) + ", when it is " + sure + " that the " + rule.LineMeans + " is over " + inPercent(n.Line) + "."
}

func from(n advice.Numbers) string {
	if n.MinBreaks <= 1 {
		return "Speaks from the first break on"
	}
	return "Speaks from " + breaks(n.MinBreaks) + " on"
}

// onward says how far a rule goes, and what it takes to go on the same way; ""
// for a rule that is switched off or does neither.
func onward(rule advice.Rule, n advice.Numbers) string {
	may := closing.Settable(rule)
	var says []string
	if n.On && may.Step {
		says = append(says, "Its step is "+decimal(n.Step)+" "+rule.StepUnit+".")
	}
	if n.On && may.Onward && n.Onward < n.Certainty {
		says = append(says, "To go on the way the last change went, "+inPercent(n.Onward)+" is enough.")
	}
	return strings.Join(says, " ")
}

// changed lists what is set otherwise than it comes: "line 30 % instead of 40 %".
func changed(rule advice.Rule, n advice.Numbers) []string {
	comes, may := rule.Numbers, closing.Settable(rule)
	var list []string
	add := func(may bool, what, is, was string) {
		if may && is != was {
			list = append(list, what+" "+is+" instead of "+was)
		}
	}
	add(may.On, "switched", onOff(n.On), onOff(comes.On))
	add(may.Line, strings.ToLower(lineLabel(rule)), inPercent(n.Line), inPercent(comes.Line))
	add(may.Certainty, "certainty", inPercent(n.Certainty), inPercent(comes.Certainty))
	add(may.Onward, "certainty to go on", inPercent(n.Onward), inPercent(comes.Onward))
	add(may.Step, "step", decimal(n.Step), decimal(comes.Step))
	add(may.MinBreaks, "fewest breaks", strconv.Itoa(n.MinBreaks), strconv.Itoa(comes.MinBreaks))
	return list
}

func onOff(on bool) string {
	if on {
		return "on"
	}
	return "off"
}

func lineLabel(rule advice.Rule) string {
	if rule.Name == advice.RuleTooEarly {
		return "Chance"
	}
	return "Line"
}

// number writes the rule's row in the coaches' list, "" for none.
func number(rule advice.Rule) string {
	if rule.Number == "" {
		return ""
	}
	return "Rule " + rule.Number
}

// setsOf writes "3 of 34 sets".
func setsOf(n, of int) string {
	if of == 1 {
		return fmt.Sprintf("%d of one set", n)
	}
	return fmt.Sprintf("%d of %d sets", n, of)
}

func setCount(n int) string {
	if n == 1 {
		return "one set"
	}
	return strconv.Itoa(n) + " sets"
}
