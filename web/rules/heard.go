package rules

import (
	"fmt"

	"breakwright/internal/advice"
	"breakwright/internal/closing"
	"breakwright/internal/store"
)

// heard counts in how many past sets each rule spoke, and in how many it was
// sure without having the word.
type heard struct {
	sets        int
	spoke, mute map[advice.Name]int
}

func count(said []closing.Said) heard {
	h := heard{sets: len(said), spoke: map[advice.Name]int{}, mute: map[advice.Name]int{}}
	for _, s := range said {
		h.spoke[s.Spoke]++
		for _, sure := range s.Sure {
			if sure != s.Spoke {
				h.mute[sure]++
			}
		}
	}
	return h
}

// says words what a rule said of the last month.
func (h heard) says(rule advice.Name) string {
	spoke, mute := h.spoke[rule], h.mute[rule]
	switch {
	case h.sets == 0:
		return ""
	case rule == advice.RuleNewTable:
		return "Concerns the first set on a table, before anything is closed."
	case rule == advice.RuleDry:
		return fmt.Sprintf("Last month: its checklist came with %s.", setsOf(mute, h.sets))
	case mute > 0:
		return fmt.Sprintf("Last month: spoke in %s, and was sure in %d more, where another rule came first, the coach had decided, or nothing was left to change.", setsOf(spoke, h.sets), mute)
	}
	return fmt.Sprintf("Last month: spoke in %s.", setsOf(spoke, h.sets))
}

// left words what was too much to judge again.
func left(past store.PastCases) string {
	if past.Left == 0 {
		return ""
	}
	return fmt.Sprintf("There were %d more; only the latest %d were judged again.", past.Left, len(past.Cases))
}
