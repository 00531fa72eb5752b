package setreview

import (
	"time"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/store"
)

// ReplayedSet is what rules say of a set that was closed in the past.
type ReplayedSet struct {
	Set      store.SetID
	Student  string
	Closed   time.Time
	Verdict  advice.Verdict
	Sentence string
	// LikeliestCause is what most likely was amiss; "" where nothing was weighed.
	LikeliestCause string
	// DecidingRule is the rule that had the word; "" when none of them had, as when
	// the coach's own setup waits to be played.
	DecidingRule advice.RuleName
	// FiredRules are the rules that were sure of their pattern, whoever spoke.
	FiredRules []advice.RuleName
}

// ReplayCases judges past sets by a club's rules, present ones or others that are
// only tried. The breaks stay as they were: had the advice been another, the
// sets after it would have been, too.
func ReplayCases(cases []store.PastCase, rules drill.ClubRules) []ReplayedSet {
	replayed := make([]ReplayedSet, len(cases))
	for i, past := range cases {
		c := past.Case
		c.Rules = rules
		a := advice.Judge(c.Sets, NewBrief(c))
		replayed[i] = ReplayedSet{
			Set: c.Set, Student: a.Student, Closed: past.Closed,
			Verdict: a.Verdict, Sentence: a.Says, DecidingRule: findDecidingRule(a),
		}
		if len(a.Causes) > 0 {
			replayed[i].LikeliestCause = a.Causes[0].Name
		}
		for _, f := range a.Findings {
			if f.Fired {
				replayed[i].FiredRules = append(replayed[i].FiredRules, f.Rule)
			}
		}
	}
	return replayed
}

// findDecidingRule names the rule that an analysis comes from.
func findDecidingRule(a advice.Advice) advice.RuleName {
	switch {
	case a.Prescription != nil:
		return a.Prescription.Rule
	case a.Verdict == advice.More:
		return advice.RuleTooEarly
	}
	return ""
}
