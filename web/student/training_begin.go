package student

import (
	"net/http"

	"breakwright/internal/advice"
	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/setreview"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/session"
)

// loadHistory returns what the student has recorded so far.
func (p *Pages) loadHistory(r *http.Request, user session.User) (history []drill.Set, err error) {
	err = p.store.ExportSets(r.Context(), user.Actor, store.ExportScope{Student: user.Person}, func(_ store.Person, sets []drill.Set) error {
		history = sets
		return nil
	})
	return history, err
}

// listNewTables lists the club's tables of a kind that the student has not broken on
// yet, one of each kind; none before their first break, when nothing can be carried.
func listNewTables(tables []store.Table, sets []store.ListedSet) []store.Table {
	known := map[table.Kind]bool{}
	for _, set := range sets {
		if set.Breaks > 0 {
			known[set.Kind] = true
		}
	}
	if len(known) == 0 {
		return nil
	}
	var unbroken []store.Table
	for _, t := range tables {
		if !known[t.Kind] {
			known[t.Kind] = true
			unbroken = append(unbroken, t)
		}
	}
	return unbroken
}

// loadBeginning fills in where the student would begin on a table of a kind that is
// new to them, by their own breaks; nothing where the drill begins there too, or a
// coach has decided.
func (p *Pages) loadBeginning(r *http.Request, user session.User, v *drillView) error {
	if !store.IsZero(v.Next.Prescription) || store.IsZero(v.Table.ID) {
		return nil
	}
	history, err := p.store.GetHistory(r.Context(), user.Actor, user.Person)
	if err != nil || len(history.Sets) == 0 {
		return err
	}
	rules, err := p.store.GetRulesOfAdvice(r.Context(), user.Actor, user.Person)
	if err != nil {
		return err
	}
	next := v.Next.Setup
	begin, ok := setreview.BeginOn(history, advice.Conditions{Table: v.Table.Label(), Kind: v.Table.Kind, Side: next.Side, Game: next.Game}, rules)
	if ok && !setreview.SamePlace(begin.Setup.Cue, next.Cue, v.Table.Kind) {
		v.Begin, v.BeginPath = begin.Statement.Text(user.Reader().BreakingFrom(next.Side)), trainingPath+"/"+fromBegin+"-"+v.Table.ID.String()
	}
	return nil
}

// suggestStart says where to begin on a table, from the student's best on the nearest
// kind of table; under what, and why, in the words for the student.
func (p *Pages) suggestStart(r *http.Request, user session.User, on store.Table) (drill.Drill, error) {
	history, err := p.loadHistory(r, user)
	if err != nil {
		return drill.Drill{}, err
	}
	rules, err := p.store.GetRulesOfAdvice(r.Context(), user.Actor, user.Person)
	if err != nil {
		return drill.Drill{}, err
	}
	conditions := advice.Conditions{Table: on.Label(), Kind: on.Kind, Side: user.Side, Game: rack.NineBall}
	if len(history) > 0 {
		last := history[len(history)-1].Setup
		conditions.Game = last.Game
		if conditions.Side == "" {
			conditions.Side = last.Side
		}
	}
	begin := advice.SuggestStart(history, conditions, advice.Brief{Rules: setreview.AdviserRules(rules)})
	d := trainingOf(beginName(on), on.Kind, begin.Setup, on.Kind.StandardWindow())
	d.Targets, d.Watch = begin.Targets, begin.Statement.Text(user.Reader().BreakingFrom(conditions.Side))
	return d, nil
}

func beginName(on store.Table) string { return "Where to begin on " + on.Label() }
