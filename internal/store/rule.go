package store

import (
	"context"
	"time"

	"breakwright/internal/store/internal/query"
)

// ClubRules are what a club has set otherwise in the adviser's rules. The zero
// ClubRules are the rules as they come.
type ClubRules struct {
	// Revision counts the club's changes; 0 before the first. Advice names it,
	// so that it can be explained when the rules are others.
	Revision int
	// Settings are by the rule's name. A rule that is not among them, or whose
	// numbers are all nil, is as it comes.
	Settings []RuleSetting
}

// SettingOf gives what is set for a rule; all nil when nothing is.
func (c ClubRules) SettingOf(rule string) RuleSetting {
	for _, s := range c.Settings {
		if s.Rule == rule {
			return s
		}
	}
	return RuleSetting{Rule: rule}
}

// WithSetting gives the rules with one setting in the place of the rule's own.
func (c ClubRules) WithSetting(set RuleSetting) ClubRules {
	changed := ClubRules{Revision: c.Revision}
	for _, s := range c.Settings {
		if s.Rule != set.Rule {
			changed.Settings = append(changed.Settings, s)
		}
	}
	changed.Settings = append(changed.Settings, set)
	return changed
}

// RuleSetting is what a club has set for one rule. Nil is as the rule comes.
type RuleSetting struct {
	// Rule is the adviser's name for it.
	Rule string
	// On is false when the rule is switched off.
	On *bool
	// Line is a share from 0 to below 1; Certainty and Onward are from above
	// 0.5 to below 1.
	Line, Certainty, Onward *float64
	// Step is in the rule's own unit, above 0.
	Step *float64
	// MinBreaks is from 0 to 500.
	MinBreaks *int
	// since is the revision that set it, 0 for none.
	since int
}

// IsStandard says that nothing of the rule is set.
func (s RuleSetting) IsStandard() bool { return s.Equal(RuleSetting{Rule: s.Rule}) }

// Equal compares what is set.
func (s RuleSetting) Equal(o RuleSetting) bool {
	return s.Rule == o.Rule && equalPointers(s.On, o.On) && equalPointers(s.Line, o.Line) && equalPointers(s.Certainty, o.Certainty) &&
		equalPointers(s.Onward, o.Onward) && equalPointers(s.Step, o.Step) && equalPointers(s.MinBreaks, o.MinBreaks)
}

func equalPointers[T comparable](a, b *T) bool {
	return a == b || a != nil && b != nil && *a == *b
}

// RuleChange is one rule as a coach set it once.
type RuleChange struct {
	RuleSetting
	Revision int
	By       PersonID
	ByName   string
	At       time.Time
}

// GetRules gives what the club has set. Coaches only.
func (s *Store) GetRules(ctx context.Context, v Actor) (ClubRules, error) {
	return readInTransaction(ctx, s, v, "get the rules", func(t *tx) (ClubRules, error) {
		if err := v.requireCoach(); err != nil {
			return ClubRules{}, err
		}
		return t.loadClubRules(ctx)
	})
}

// GetRulesOfAdvice gives what the club has set, as the adviser reads it for one of the
// club's students. A student can only have it read for themself.
func (s *Store) GetRulesOfAdvice(ctx context.Context, v Actor, student PersonID) (ClubRules, error) {
	return readInTransaction(ctx, s, v, "read the rules of advice", func(t *tx) (rules ClubRules, err error) {
		if _, err := t.loadStudent(ctx, student); err != nil {
			return ClubRules{}, err
		}
		err = t.asAdviser(ctx, student, func() error {
			rules, err = t.loadClubRules(ctx)
			return err
		})
		return rules, err
	})
}

// ListRuleChanges gives every change of the rules there was, newest first.
// Coaches only.
func (s *Store) ListRuleChanges(ctx context.Context, v Actor) ([]RuleChange, error) {
	return readInTransaction(ctx, s, v, "list the changes of the rules", func(t *tx) ([]RuleChange, error) {
		if err := v.requireCoach(); err != nil {
			return nil, err
		}
		rows, err := t.Queries.ListRuleChanges(ctx)
		return mapRows(rows, func(r query.ListRuleChangesRow) RuleChange {
			return RuleChange{
				RuleSetting: ruleSettingFromRow(r.ClubRule), Revision: r.ClubRule.Revision,
				By: PersonID{r.ClubRule.ChangedBy}, ByName: r.CoachName, At: r.ClubRule.ChangedAt.UTC(),
			}
		}), err
	})
}

// loadClubRules reads what is in force; for a student, only as the adviser.
func (t *tx) loadClubRules(ctx context.Context) (ClubRules, error) {
	rows, err := t.ListRules(ctx)
	var c ClubRules
	for _, r := range rows {
		c.Revision = max(c.Revision, r.Revision)
		c.Settings = append(c.Settings, ruleSettingFromRow(r))
	}
	return c, err
}

func ruleSettingFromRow(r query.ClubRule) RuleSetting {
	return RuleSetting{
		Rule: r.Rule, On: r.Speaks, Line: r.Line, Certainty: r.Certainty, Onward: r.Onward,
		Step: r.Step, MinBreaks: r.MinBreaks, since: r.Revision,
	}
}
