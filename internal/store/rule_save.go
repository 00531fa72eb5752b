package store

import (
	"context"
	"slices"

	"github.com/google/uuid"

	"breakwright/internal/drill"
	"breakwright/internal/store/internal/query"
)

// SaveRules sets some of the club's rules, in one transaction and as one
// revision, and returns the rules as they now are. Rules that are not named stay.
// revision is the one that the coach saw: when one of these rules was set
// otherwise since, it is [ErrStale] and nothing is saved.
// Repeating a change is harmless. Whether a rule of that name exists, and
// whether its numbers make sense to the adviser, is the caller's to know. Coaches
// only.
func (s *Store) SaveRules(ctx context.Context, v Actor, revision int, settings []drill.RuleSetting) (drill.ClubRules, error) {
	var saved drill.ClubRules
	err := s.changeAsCoach(ctx, v, "save the rules", func(t *tx) error {
		if err := drill.CheckRuleSettings(settings); err != nil {
			return err
		}
		if err := t.LockUntilCommit(ctx, "rules of "+v.Club.String()); err != nil {
			return err
		}
		rows, err := t.ListRules(ctx)
		if err != nil {
			return err
		}
		there := clubRulesFromRows(rows)
		for _, set := range settings {
			if there.SettingOf(set.Rule).Equal(set) {
				continue
			}
			if slices.ContainsFunc(rows, func(r query.ClubRule) bool { return r.Rule == set.Rule && r.Revision > revision }) {
				return newRefusal(ErrStale, "another coach has changed this rule meanwhile")
			}
			if err := t.InsertRule(ctx, t.newRuleRow(there.Revision+1, set)); err != nil {
				return err
			}
		}
		if saved, err = t.loadClubRules(ctx); err != nil {
			return err
		}
		return t.requireRoom(ctx, RoomForRules, uuid.Nil)
	})
	return saved, err
}

func (t *tx) newRuleRow(revision int, s drill.RuleSetting) query.InsertRuleParams {
	return query.InsertRuleParams{
		ClubID: t.actor.Club.UUID, Revision: revision, ChangedBy: t.actor.Person.UUID,
		Rule: s.Rule, Speaks: s.On, Line: s.Line, Certainty: s.Certainty, Onward: s.Onward,
		Step: s.Step, MinBreaks: s.MinBreaks,
	}
}
