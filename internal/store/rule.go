package store

import (
	"context"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// RuleChange is one rule as a coach set it once.
//
// A coach reads and sets rules ([ErrNotAllowed] for a student), and the adviser reads
// them for whoever is advised. A change is never undone but by another: every one is
// kept, with who made it.
type RuleChange struct {
	drill.RuleSetting
	Revision int
	By       PersonID
	ByName   string
	At       time.Time
}

// GetRules returns what the club has set. Coaches only.
func (s *Store) GetRules(ctx context.Context, v Actor) (drill.ClubRules, error) {
	return readInTransaction(ctx, s, v, "get the rules", func(t *tx) (drill.ClubRules, error) {
		if err := v.requireCoach(); err != nil {
			return drill.ClubRules{}, err
		}
		return t.loadClubRules(ctx)
	})
}

// GetRulesOfAdvice returns what the club has set, as the adviser reads it for one of the
// club's students. A student can only have it read for themself.
func (s *Store) GetRulesOfAdvice(ctx context.Context, v Actor, student PersonID) (drill.ClubRules, error) {
	return readInTransaction(ctx, s, v, "read the rules of advice", func(t *tx) (rules drill.ClubRules, err error) {
		if _, err := t.loadStudent(ctx, student); err != nil {
			return drill.ClubRules{}, err
		}
		err = t.asAdviser(ctx, student, func() error {
			rules, err = t.loadClubRules(ctx)
			return err
		})
		return rules, err
	})
}

// ListRuleChanges returns every change of the rules there was, newest first.
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
func (t *tx) loadClubRules(ctx context.Context) (drill.ClubRules, error) {
	rows, err := t.ListRules(ctx)
	return clubRulesFromRows(rows), err
}

func clubRulesFromRows(rows []query.ClubRule) (c drill.ClubRules) {
	for _, r := range rows {
		c.Revision = max(c.Revision, r.Revision)
		c.Settings = append(c.Settings, ruleSettingFromRow(r))
	}
	return c
}

func ruleSettingFromRow(r query.ClubRule) drill.RuleSetting {
	return drill.RuleSetting{
		Rule: r.Rule, On: r.Speaks, Line: r.Line, Certainty: r.Certainty, Onward: r.Onward,
		Step: r.Step, MinBreaks: r.MinBreaks,
	}
}
