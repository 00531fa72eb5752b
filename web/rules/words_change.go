package rules

import (
	"strings"

	"breakwright/internal/advice"
	"breakwright/internal/closing"
	"breakwright/internal/store"
)

// whatChanged says what a rule was set to once.
func whatChanged(rule advice.Rule, set store.RuleSetting) string {
	list := changed(rule, closing.Numbers(rule, set))
	if len(list) == 0 {
		return "back to the standard"
	}
	return strings.Join(list, ", ")
}
