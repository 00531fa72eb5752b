package rehearsal

import (
	"fmt"
	"slices"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// setupAdvice is what an adviser says after a set.
type setupAdvice struct {
	next drill.Setup
	// good says that the present setup is called good; checkRack that the rack is
	// to be checked before the next set.
	good, checkRack bool
	// advice is the whole of what the real adviser says; nil for others.
	advice *advice.Advice
}

// setupAdviser says under which setup the next set is broken.
type setupAdviser interface {
	adviseAfter(history []drill.Set) setupAdvice
}

// ruleAdviser is the real adviser; forget, when there is one, takes a fact out of
// every break before the adviser sees it.
type ruleAdviser struct {
	brief  advice.Brief
	forget func(*drill.Break)
}

func (j ruleAdviser) adviseAfter(history []drill.Set) setupAdvice {
	a := advice.Judge(j.withoutForgotten(history), j.brief)
	return setupAdvice{a.Next, a.Verdict == advice.Keep, a.CheckRack, &a}
}

// withoutForgotten returns the history as the adviser may know it.
func (j ruleAdviser) withoutForgotten(history []drill.Set) []drill.Set {
	if j.forget == nil {
		return history
	}
	known := make([]drill.Set, len(history))
	for i, set := range history {
		known[i] = set
		known[i].Breaks = slices.Clone(set.Breaks)
		for b := range known[i].Breaks {
			j.forget(&known[i].Breaks[b])
		}
	}
	return known
}

// rulesWithout returns the rules as they come with those of the names switched off.
func rulesWithout(names ...advice.RuleName) advice.Rules {
	all := advice.DefaultRules()
	for _, name := range names {
		n := all.Numbers[name]
		n.On = false
		all.Numbers[name] = n
	}
	return all
}

// findRule finds a rule by its name.
func findRule(name advice.RuleName) (advice.Rule, error) {
	for _, r := range advice.Catalogue() {
		if r.Name == name {
			return r, nil
		}
	}
	return advice.Rule{}, fmt.Errorf("there is no rule %q", name)
}

// fixedAdviser leaves the first setup as it is.
type fixedAdviser struct{}

func (fixedAdviser) adviseAfter(history []drill.Set) setupAdvice {
	return setupAdvice{next: history[len(history)-1].Setup}
}

// informedAdviser knows the student's secret.
type informedAdviser struct{ best drill.Setup }

func (t informedAdviser) adviseAfter([]drill.Set) setupAdvice {
	return setupAdvice{next: t.best, checkRack: true}
}

// inchwiseAdviser is the rule of thumb that the adviser is to beat: after each set
// under the target the cue ball moves an inch, at first in, and the other way
// once a set was worse than the one before.
type inchwiseAdviser struct{ target float64 }

func (w inchwiseAdviser) adviseAfter(history []drill.Set) setupAdvice {
	s := history[len(history)-1].Setup
	made := make([]int, len(history))
	for i, set := range history {
		for _, b := range set.Breaks {
			if b.WingMade(set.Setup) {
				made[i]++
			}
		}
	}
	last := len(history) - 1
	if float64(made[last]) >= w.target*float64(len(history[last].Breaks)) {
		return setupAdvice{next: s, good: true}
	}
	inward := table.Inches(1)
	for i := 1; i <= last; i++ {
		if made[i] < made[i-1] {
			inward = -inward
		}
	}
	edge := drill.OutermostCue(history[last].Kind)
	out := max(s.Cue.X, -s.Cue.X) - inward
	s.Cue.X = s.Side.Sign() * min(max(out, 0), edge)
	return setupAdvice{next: s.Rounded()}
}
