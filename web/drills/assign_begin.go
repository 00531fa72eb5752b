package drills

import (
	"net/http"

	"breakwright/internal/advice"
	"breakwright/internal/say"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/web/session"
)

// studentBeginning is where a student would begin on a table of the drill's size, by
// their own breaks on another.
type studentBeginning struct{ Name, Words string }

// mostBeginnings is for how many students the page says so: a coach who ticks more
// looks at the class, not at each.
const mostBeginnings = 12

// loadBeginnings fills in those of the ticked students to whom the drill's size of
// table is new, and who would begin elsewhere than the drill does.
func (p *Pages) loadBeginnings(r *http.Request, v *assignDrillView) error {
	user := session.MustUser(r)
	var ticked []store.Person
	var ids []store.PersonID
	for _, s := range v.Students {
		if v.isTicked(s.ID) && len(ids) < mostBeginnings {
			ticked, ids = append(ticked, s), append(ids, s.ID)
		}
	}
	if len(ids) == 0 {
		return nil
	}
	histories, err := p.store.GetHistories(r.Context(), user.Actor, ids)
	if err != nil {
		return err
	}
	rules, err := p.store.GetRules(r.Context(), user.Actor)
	if err != nil {
		return err
	}
	d := v.Drill.Drill
	for _, s := range ticked {
		begin, ok := setreview.BeginOn(histories[s.ID], advice.Conditions{Kind: d.Kind, Side: s.Side, Game: d.Setup.Game}, rules)
		isNewSize := begin.Statement.Kind == say.StartFrom && begin.Statement.Yes
		if ok && isNewSize && !setreview.SamePlace(begin.Setup.Cue, d.ForSide(begin.Setup.Side).Setup.Cue, d.Kind) {
			v.Beginnings = append(v.Beginnings, studentBeginning{s.Name, begin.Statement.Text(user.Reader())})
		}
	}
	return nil
}
