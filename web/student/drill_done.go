package student

import (
	"net/http"
	"strings"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/route"
	"breakwright/web/session"
)

// drillDone is what came of a drill when it was broken last.
type drillDone struct {
	// Path is the set's page.
	Path string
	// Words say where it was broken and what was counted.
	Words string
}

// loadDone returns what came of the drill; nil while it is still to be broken, or a
// change of it is.
func (p *Pages) loadDone(r *http.Request, v drillView) (*drillDone, error) {
	if v.Task.Closed == 0 || v.Change != nil && v.Change.IsToBePlayed() {
		return nil, nil
	}
	set, err := p.store.GetSet(r.Context(), session.MustUser(r).Actor, v.Task.LastSet)
	if err != nil {
		return nil, err
	}
	return &drillDone{route.OwnSetPath(set.ID), doneWords(set)}, nil
}

// doneWords counts in a sentence what a set is judged by.
func doneWords(set store.Set) string {
	c := component.CountBreaks(set.DrillSet().Breaks, set.Setup, set.Window)
	var counts []string
	if c.Watched > 0 {
		counts = append(counts, "wing ball "+say.OfTotal(c.Wing, c.Watched))
	}
	if c.Breaks > 0 {
		counts = append(counts, "cue ball in the window "+say.OfTotal(c.Window, c.Breaks))
	}
	if len(counts) == 0 {
		return ""
	}
	return "On " + set.Table.Label() + ": " + strings.Join(counts, ", ") + "."
}
