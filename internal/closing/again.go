package closing

import (
	"time"

	"breakwright/internal/advice"
	"breakwright/internal/store"
)

// Said is what rules say of a set that was closed in the past.
type Said struct {
	Set     store.SetID
	Student string
	Closed  time.Time
	Verdict advice.Verdict
	Says    string
	// Spoke is the rule that had the word; "" when none of them had, as when
	// the coach's own setup waits to be played.
	Spoke advice.Name
	// Sure are the rules that were sure of their pattern, whoever spoke.
	Sure []advice.Name
}

// Again judges past sets by a club's rules, present ones or others that are
// only tried. The breaks stay as they were: had the advice been another, the
// sets after it would have been, too.
func Again(cases []store.PastCase, rules store.ClubRules) []Said {
	said := make([]Said, len(cases))
	for i, past := range cases {
		c := past.Case
		c.Rules = rules
		a := advice.Judge(c.Sets, Brief(c))
		said[i] = Said{
			Set: c.Set, Student: a.Student, Closed: past.Closed,
			Verdict: a.Verdict, Says: a.Says, Spoke: spoke(a),
		}
		for _, f := range a.Findings {
			if f.Fired {
				said[i].Sure = append(said[i].Sure, f.Rule)
			}
		}
	}
	return said
}

// spoke names the rule that an advice comes from.
func spoke(a advice.Advice) advice.Name {
	switch {
	case a.Prescription != nil:
		return a.Prescription.Rule
	case a.Verdict == advice.More:
		return advice.RuleTooEarly
	}
	return ""
}
