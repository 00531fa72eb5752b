package store

import (
	"context"
	"unicode/utf8"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// SaveRules sets some of the club's rules, in one transaction and as one
// revision, and gives the rules as they now are. Rules that are not named stay.
// revision is the one that the coach saw: when one of these rules was set
// otherwise since, it is [ErrStale] and nothing is saved.
// Repeating a change is harmless. Whether a rule of that name exists, and
// whether its numbers make sense to the adviser, is the caller's to know. Coaches
// only.
func (s *Store) SaveRules(ctx context.Context, v Actor, revision int, settings []RuleSetting) (ClubRules, error) {
	var saved ClubRules
	err := s.changeAsCoach(ctx, v, "save the rules", func(t *tx) error {
		if err := checkSettings(settings); err != nil {
			return err
		}
		if err := t.LockUntilCommit(ctx, "rules of "+v.Club.String()); err != nil {
			return err
		}
		there, err := t.loadClubRules(ctx)
		if err != nil {
			return err
		}
		for _, set := range there.changedSettings(settings) {
			if there.SettingOf(set.Rule).since > revision {
				return newRefusal(ErrStale, "another coach has changed this rule meanwhile")
			}
			if err := t.InsertRule(ctx, t.newRuleRow(there.Revision+1, set)); err != nil {
				return err
			}
		}
		saved, err = t.loadClubRules(ctx)
		return err
	})
	return saved, err
}

// changedSettings picks the settings that are not in force.
func (c ClubRules) changedSettings(settings []RuleSetting) []RuleSetting {
	var changed []RuleSetting
	for _, set := range settings {
		if !c.SettingOf(set.Rule).Equal(set) {
			changed = append(changed, set)
		}
	}
	return changed
}

func (t *tx) newRuleRow(revision int, s RuleSetting) query.InsertRuleParams {
	return query.InsertRuleParams{
		ClubID: t.actor.Club.UUID, Revision: revision, ChangedBy: t.actor.Person.UUID,
		Rule: s.Rule, Speaks: s.On, Line: s.Line, Certainty: s.Certainty, Onward: s.Onward,
		Step: s.Step, MinBreaks: s.MinBreaks,
	}
}

// checkSettings refuses what no rule can have. Fields are named
// "rule.number", as the adviser names them.
func checkSettings(settings []RuleSetting) error {
	var p drill.Problems
	seen := map[string]bool{}
	for _, s := range settings {
		if n := utf8.RuneCountInString(s.Rule); n < 1 || n > 60 || !utf8.ValidString(s.Rule) || seen[s.Rule] {
			p.Add("rule", "each rule has its name, and is set once")
		}
		seen[s.Rule] = true
		s.addProblems(&p)
	}
	return p.Err()
}

// addProblems is written so that what is no number is refused, too.
func (s RuleSetting) addProblems(p *drill.Problems) {
	refuse := func(number, says string) { p.Add(s.Rule+"."+number, says) }
	if s.Line != nil && !(*s.Line >= 0 && *s.Line < 1) {
		refuse("line", "a line is a share, from 0 to below 100 percent")
	}
	if s.Certainty != nil && !isCertainty(*s.Certainty) {
		refuse("certainty", "a certainty lies above 50 and below 100 percent")
	}
	if s.Onward != nil && !isCertainty(*s.Onward) {
		refuse("onward", "a certainty lies above 50 and below 100 percent")
	}
	if s.Step != nil && !(*s.Step > 0 && *s.Step <= 100) {
		refuse("step", "a step is above 0 and at most 100")
	}
	if s.MinBreaks != nil && !(*s.MinBreaks >= 0 && *s.MinBreaks <= 500) {
		refuse("min_breaks", "the fewest breaks lie from 0 to 500")
	}
}

func isCertainty(v float64) bool { return v > 0.5 && v < 1 }
