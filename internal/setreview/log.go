package setreview

import (
	"slices"
	"time"

	"breakwright/internal/advice"
	"breakwright/internal/coaching"
	"breakwright/internal/drill"
	"breakwright/internal/store"
)

// JudgeLog returns the adviser's word on one student's sets as a break log has them:
// what their page says, where the log has the plans of the sets. In such a log a set that
// is not closed is still being played, and left out, and the set closed last is the one
// that is judged, beside what others' breaks had shown by then. In any other log the
// student is judged beside what the breaks of the others in it showed.
func JudgeLog(sets []drill.Set, others advice.ShownByRack) advice.Advice {
	c := store.Case{History: store.History{Sets: closedSets(sets)}}
	if len(c.Sets) == 0 {
		return advice.Judge(nil, advice.Brief{})
	}
	last := c.Sets[len(c.Sets)-1]
	plan := last.Plan
	c.Window, c.Targets, c.House, c.Rules = plan.Window, plan.Targets, plan.House, plan.Rules
	c.Overruled = overruledIn(c.Sets)
	if c.TablesPlay = plan.TablesPlay; !IsOfPages(sets) {
		c.TablesPlay = others.TablesPlay(last.Setup)
	}
	return judge(c)
}

// IsOfPages reports whether a log was written by a club's pages: whether it says when
// sets were closed.
func IsOfPages(sets []drill.Set) bool {
	return slices.ContainsFunc(sets, func(s drill.Set) bool { return !s.Plan.Closed.IsZero() })
}

// closedSets are the sets that are closed, the one closed last at the end; all of
// them where the log does not say.
func closedSets(sets []drill.Set) []drill.Set {
	if !IsOfPages(sets) {
		return sets
	}
	closed := slices.DeleteFunc(slices.Clone(sets), func(s drill.Set) bool { return s.Plan.Closed.IsZero() })
	last := 0
	for i, set := range closed {
		if !set.Plan.Closed.Before(closed[last].Plan.Closed) {
			last = i
		}
	}
	set := closed[last]
	return append(slices.Delete(closed, last, last+1), set)
}

// overruledIn are the coach's decisions against proposals, newest first. One that was made
// earlier and comes first is to the adviser as one of the coach's own on the set.
func overruledIn(sets []drill.Set) []coaching.Overruled {
	newest := slices.Clone(sets)
	slices.SortStableFunc(newest, func(a, b drill.Set) int { return b.Plan.Closed.Compare(a.Plan.Closed) })
	var all []coaching.Overruled
	for _, at := range newest {
		for _, d := range at.Plan.Decisions {
			decision := coaching.State(d.Answer)
			switch {
			case d.Answer == drill.EarlierDecision && d.Setup.SameAs(at.Setup):
				decision = coaching.Declined // what was played already is to be gone on with
			case d.Answer == drill.EarlierDecision:
				decision = coaching.Own
			}
			if decision != coaching.Approved {
				all = append(all, coaching.Overrule(d.Rule, decision, d.Setup, at, closedBy(at.Plan.Closed, sets)))
			}
		}
	}
	return all
}

// closedBy are the sets that were closed by then.
func closedBy(then time.Time, sets []drill.Set) []drill.Set {
	return slices.DeleteFunc(slices.Clone(sets), func(s drill.Set) bool { return s.Plan.Closed.After(then) })
}
