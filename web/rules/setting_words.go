package rules

import (
	"strings"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/setreview"
)

// settingWords says what a rule was set to once.
func settingWords(rule advice.Rule, set drill.RuleSetting) string {
	list := changedNumbers(rule, setreview.RuleNumbers(rule, set))
	if len(list) == 0 {
		return "back to the standard"
	}
	return strings.Join(list, ", ")
}
