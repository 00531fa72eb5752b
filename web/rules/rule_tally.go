package rules

import (
	"fmt"

	"breakwright/internal/advice"
	"breakwright/internal/say"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
)

// ruleTally counts in how many past sets each rule spoke, and in how many it was
// sure without having the word.
type ruleTally struct {
	sets                        int
	spokeCount, sureSilentCount map[advice.RuleName]int
	// likeliestCount counts by what most likely was amiss.
	likeliestCount map[string]int
}

func tallyRules(replayed []setreview.ReplayedSet) ruleTally {
	h := ruleTally{sets: len(replayed), spokeCount: map[advice.RuleName]int{}, sureSilentCount: map[advice.RuleName]int{}, likeliestCount: map[string]int{}}
	for _, s := range replayed {
		h.spokeCount[s.DecidingRule]++
		if s.LikeliestCause != "" {
			h.likeliestCount[s.LikeliestCause]++
		}
		for _, sure := range s.FiredRules {
			if sure != s.DecidingRule {
				h.sureSilentCount[sure]++
			}
		}
	}
	return h
}

// lastMonthWords words what a rule said of the last month.
func (h ruleTally) lastMonthWords(rule advice.RuleName) string {
	spoke, mute := h.spokeCount[rule], h.sureSilentCount[rule]
	switch {
	case h.sets == 0:
		return ""
	case rule == advice.RuleWeighing:
		return "Its changes take the words of the pattern that goes with them, and count there."
	case rule == advice.RuleNewTable:
		return "Concerns the first set on a table, before anything is closed."
	case rule == advice.RuleDry:
		return fmt.Sprintf("Last month: its checklist came with %s.", say.CountOf(mute, h.sets, "set", "sets"))
	case mute > 0:
		return fmt.Sprintf("Last month: spoke in %s, and was sure in %d more, where another rule came first, the coach had decided, or nothing was left to change.", say.CountOf(spoke, h.sets, "set", "sets"), mute)
	}
	return fmt.Sprintf("Last month: spoke in %s.", say.CountOf(spoke, h.sets, "set", "sets"))
}

// leftOutWords words what was too much to judge again.
func leftOutWords(past store.PastCases) string {
	if past.Left == 0 {
		return ""
	}
	return fmt.Sprintf("There were %d more; only the latest %d were judged again.", past.Left, len(past.Cases))
}
