package rehearsal

import (
	"fmt"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// setupAdviser says under which setup the next set is broken, and whether that is
// because the present one is good.
type setupAdviser interface {
	nextSetup(history []drill.Set) (s drill.Setup, good bool)
}

// ruleAdviser is the real adviser.
type ruleAdviser struct{ brief advice.Brief }

func (j ruleAdviser) nextSetup(history []drill.Set) (drill.Setup, bool) {
	a := advice.Judge(history, j.brief)
	return a.Next, a.Verdict == advice.Keep
}

// rulesWithout gives the rules as they come with those of the names switched off.
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

func (fixedAdviser) nextSetup(history []drill.Set) (drill.Setup, bool) {
	return history[len(history)-1].Setup, false
}

// informedAdviser knows the student's secret.
type informedAdviser struct{ best drill.Setup }

func (t informedAdviser) nextSetup([]drill.Set) (drill.Setup, bool) { return t.best, false }

// inchwiseAdviser is the rule of thumb that the adviser is to beat: after each set
// under the target the cue ball moves an inch, at first in, and the other way
// once a set was worse than the one before.
type inchwiseAdviser struct{ target float64 }

func (w inchwiseAdviser) nextSetup(history []drill.Set) (drill.Setup, bool) {
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
		return s, true
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
	return s.Rounded(), false
}
