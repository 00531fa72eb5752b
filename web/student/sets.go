package student

import (
	"net/http"

	"breakwright/internal/store"
	"breakwright/web/component"
	"breakwright/web/page"
	"breakwright/web/session"
)

// setsView lists the student's sets.
type setsView struct {
	Frame  page.Frame
	Person store.PersonID
	Sets   []setLine
}

type setLine struct {
	Path, Name, Words string
	Tags              []string
}

func (p *Pages) listSets(w http.ResponseWriter, r *http.Request) error {
	visitor := session.MustUser(r)
	sets, err := p.store.ListSets(r.Context(), visitor.Actor, visitor.Person)
	if err != nil {
		return err
	}
	v := setsView{Frame: p.sessions.TakeFrame(w, r), Person: visitor.Person}
	for _, set := range sets {
		v.Sets = append(v.Sets, setLine{
			Path: "/my/sets/" + set.ID.String(), Name: nameOf(set),
			Words: component.CountWords(set.Breaks, set.Planned) + " breaks on " + set.TableLabel + ", " + when(set.Started, visitor.Zone),
			Tags:  tagsOf(set),
		})
	}
	return page.Render(w, r, http.StatusOK, setsPage(v))
}

func nameOf(set store.ListedSet) string {
	if set.DrillName != "" {
		return set.DrillName
	}
	return set.Name
}

func tagsOf(set store.ListedSet) []string {
	var tags []string
	if set.Closed.IsZero() {
		tags = append(tags, "open")
	}
	if set.State != "" {
		tags = append(tags, string(set.State))
	}
	if set.Answers > 0 {
		tags = append(tags, "your coach answered")
	}
	return tags
}
