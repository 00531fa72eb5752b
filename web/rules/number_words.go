package rules

import (
	"strconv"
	"strings"

	"breakwright/internal/advice"
	"breakwright/internal/say"
	"breakwright/internal/setreview"
)

// percentNumber writes a share as it is typed: "95", "97.5".
func percentNumber(share float64) string { return formatDecimal(roundHundredth(share * 100)) }

// percentWords writes a share as it is read; the sign stays with its number.
func percentWords(share float64) string { return percentNumber(share) + "\u00a0%" }

func formatDecimal(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// speaksWhen says in sentences when a rule speaks by its numbers.
func speaksWhen(rule advice.Rule, n advice.Numbers) string {
	if !n.On {
		return "Switched off: it never speaks."
	}
	if isWorth(rule) {
		return say.Capitalize(worthWords(rule, n)) + " where a ball down counts 1, the standard."
	}
	sure := "at least " + percentWords(n.Certainty) + " sure"
	switch rule.Name {
	case advice.RuleLimits:
		return "Speaks at once, whatever the breaks were. Nothing is taught beyond the limits, so there is nothing to set."
	case advice.RuleNewTable:
		return "Needs " + say.CountFromOne(n.MinBreaks, "break", "breaks") + " under a setup before it carries it over. There is nothing to set: a drill is carried to the table in proportion."
	case advice.RuleWeighing:
		return firstBreakWords(n) + ": a change is proposed when it is " + sure + " that it helps, and at most " + percentWords(n.Line) + " that it harms."
	case advice.RuleTooEarly:
		return "Asks for the number of breaks that settles the question with a chance of " + percentWords(n.Line) + "."
	case advice.RuleFollowUp:
		return firstBreakWords(n) + ", when it is " + sure + " that the change did harm, and never less sure than any other rule has to be."
	case advice.RuleProgress:
		return firstBreakWords(n) + ", when it is " + sure + " that both targets are reached."
	case advice.RuleWingUnseen:
		return firstBreakWords(n) + ", when it is " + sure + " that the wing ball falls less often than " + percentWords(n.Line) + " of its target."
	}
	return firstBreakWords(n) + ", when it is " + sure + " that the " + rule.LineMeans + " is over " + percentWords(n.Line) + "."
}

func firstBreakWords(n advice.Numbers) string {
	if n.MinBreaks <= 1 {
		return "Speaks from the first break on"
	}
	return "Speaks from " + say.CountFromOne(n.MinBreaks, "break", "breaks") + " on"
}

// stepUnitWords say in what a rule's step is, and how far it is meant: "in of place, at
// most".
func stepUnitWords(rule advice.Rule) string {
	if rule.StepBound == "" {
		return rule.StepUnit
	}
	return rule.StepUnit + ", " + rule.StepBound
}

// onwardWords says how far a rule goes, and what it takes to go on the same way; ""
// for a rule that is switched off or does neither.
func onwardWords(rule advice.Rule, n advice.Numbers) string {
	may := setreview.ListSettable(rule)
	var says []string
	if n.On && may.Step && !isWorth(rule) {
		says = append(says, "Its step is "+formatDecimal(n.Step)+" "+stepUnitWords(rule)+".")
	}
	if n.On && may.Onward && n.Onward < n.Certainty {
		says = append(says, "To repeat the last change, "+percentWords(n.Onward)+" is enough.")
	}
	return strings.Join(says, " ")
}

// changedNumbers lists what is set otherwise than it comes: "act above 30 % instead of 40 %".
func changedNumbers(rule advice.Rule, n advice.Numbers) []string {
	comes, may := rule.Numbers, setreview.ListSettable(rule)
	var list []string
	add := func(may bool, what, is, was string) {
		if may && is != was {
			list = append(list, what+" "+is+" instead of "+was)
		}
	}
	add(may.On, "switched", onOffWord(n.On), onOffWord(comes.On))
	add(may.Line, strings.ToLower(lineLabel(rule)), percentWords(n.Line), percentWords(comes.Line))
	add(may.Certainty, "certainty", percentWords(n.Certainty), percentWords(comes.Certainty))
	add(may.Onward, "certainty to repeat a change", percentWords(n.Onward), percentWords(comes.Onward))
	step := "step"
	if isWorth(rule) {
		step = "points"
	}
	add(may.Step, step, formatDecimal(n.Step), formatDecimal(comes.Step))
	add(may.MinBreaks, "fewest breaks", strconv.Itoa(n.MinBreaks), strconv.Itoa(comes.MinBreaks))
	return list
}

func onOffWord(on bool) string {
	if on {
		return "on"
	}
	return "off"
}

func lineLabel(rule advice.Rule) string {
	switch rule.Name {
	case advice.RuleTooEarly:
		return "Chance"
	case advice.RuleWeighing:
		return "Most chance to harm"
	}
	return "Act above"
}
