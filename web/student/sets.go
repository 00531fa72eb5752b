package student

import (
	"net/http"

	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/route"
	"breakwright/web/session"
)

// setsView lists the student's sets.
type setsView struct {
	Frame  page.Frame
	Person store.PersonID
	Sets   []ownSetLine
}

type ownSetLine struct {
	Path, Name, Words string
	Tags              []string
}

func (p *Pages) listSets(w http.ResponseWriter, r *http.Request) error {
	user := session.MustUser(r)
	sets, err := p.store.ListSets(r.Context(), user.Actor, user.Person)
	if err != nil {
		return err
	}
	v := setsView{Frame: p.sessions.TakeFrame(w, r), Person: user.Person}
	for _, set := range sets {
		v.Sets = append(v.Sets, ownSetLine{
			Path: route.OwnSetPath(set.ID), Name: setName(set),
			Words: say.OfTotal(set.Breaks, set.Planned) + " breaks on " + set.TableLabel + ", " + formatTime(set.Started, user.Zone),
			Tags:  setTags(set),
		})
	}
	return page.Render(w, r, http.StatusOK, setsPage(v))
}

func setName(set store.ListedSet) string {
	switch {
	case set.DrillName != "":
		return set.DrillName
	case set.Training != "":
		return set.Training
	}
	return set.Name
}

func setTags(set store.ListedSet) []string {
	var tags []string
	if set.Closed.IsZero() {
		tags = append(tags, "open")
	}
	if set.Training != "" {
		tags = append(tags, "training")
	}
	if set.State != "" {
		tags = append(tags, component.StateTag(set.State))
	}
	if set.Answers > 0 {
		tags = append(tags, "your coach answered")
	}
	return tags
}
